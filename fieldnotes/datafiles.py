"""Where the grammars and the sample notes are: in the installed package, or beside it in a checkout."""

from pathlib import Path

_PACKAGE = Path(__file__).parent


def data_folder(name: str) -> Path:
    """The folder `name` ("grammars" or "sample_notes")."""
    installed = _PACKAGE / "_data" / name
    return installed if installed.is_dir() else _PACKAGE.parent / name

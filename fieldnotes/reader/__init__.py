"""The reader: free or dictated text → structured records, each tied to the words it came from."""

from fieldnotes.reader.pipeline import read

__all__ = ["read"]

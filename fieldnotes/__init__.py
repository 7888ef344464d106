"""fieldnotes: a beekeeper's spoken or typed notes become records, a book and a morning digest."""

__version__ = "0.1.0"

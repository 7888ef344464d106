"""`python -m fieldnotes`."""

from fieldnotes.cli import main

if __name__ == "__main__":
    main()

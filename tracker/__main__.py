"""`python -m tracker` is the same program as `tidemark`."""

from tracker.cli import main

if __name__ == "__main__":
    main()

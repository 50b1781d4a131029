"""The log: models, the file and its migrations, reads and writes. Hands out plain records, never ORM objects."""

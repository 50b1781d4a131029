"""The words, numbers and signs of one piece of text. Pure."""

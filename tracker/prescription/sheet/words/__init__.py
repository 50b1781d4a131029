"""How coaches put things: letters, words of other languages, slips, and the names of lifts and movements. Pure."""

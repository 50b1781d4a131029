"""Files in and out, copies, the check, and deletion."""

"""What a person does: every page and every command calls this room, and only this room."""

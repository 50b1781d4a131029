"""Files, copies, custody and farewell."""

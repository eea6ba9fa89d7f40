"""The set-out sheets: the lines in readings of the tape, and every row."""

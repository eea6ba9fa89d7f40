"""The axis check: every held feature on its axis, and the cuts beside it."""

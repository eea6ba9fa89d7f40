"""What comes of a floor: its rules judged, its layouts finished, the best three picked."""

"""What the audit measures of a layout, from the outlines of its pieces alone."""

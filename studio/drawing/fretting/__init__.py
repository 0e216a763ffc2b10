"""What the fretboard callout shows: which fingerings, on which neck, and when which of it sounds."""

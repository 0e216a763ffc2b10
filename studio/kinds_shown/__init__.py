"""What `studio overlays --list` shows: each kind of callout with its options and a small picture."""

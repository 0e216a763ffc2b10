"""How the demo song was made: its notes as data, a small instrument for each part, and a desk drawn from above."""

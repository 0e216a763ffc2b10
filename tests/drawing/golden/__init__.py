"""Golden pictures: what each kind of callout looked like when somebody last looked at it and found it right.

`python -m tests.drawing.golden` says what looks otherwise now and shows both side by side;
`python -m tests.drawing.golden --update` makes what is drawn now the golden picture. Look first.
"""

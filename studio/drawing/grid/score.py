"""Drawing grooves on their grid: voices as chalk lines, strokes as shapes on them, beats counted over them.

How a stroke is played is its shape: an accent is larger under a wedge, a ghost note small and hollow, an open
hi-hat a cross in a ring. What differs from the groove before is underlined, and what that one has here and this one
has not is a dotted ring; both in the cool accent, too.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from studio.drawing.frame import PADDING
from studio.drawing.grid.grid import Grid, Pattern, Turned, VoiceLine
from studio.drawing.grid.setting import NEAREST, OVER_WORDS, POINTER, TAIL, Setting
from studio.drawing.grid.strokes import RADIUS, Strokes, is_hollow
from studio.drawing.lettering.face import Weight
from studio.drawing.lettering.outlines import CAP
from studio.drawing.lettering.type import plain
from studio.drawing.paint import Sheet
from studio.drawing.themes.contrast import over
from studio.drawing.themes.theme import Theme

SYLLABLE = 4.4
"""Units between neighbouring syllables of the count under which only the beats are counted."""


class Score:
    """Draws the patterns of a grid on one sheet. Lengths inside are pixels."""

    def __init__(self, sheet: Sheet, content: Grid, look: Turned, theme: Theme) -> None:
        self.sheet, self.content, self.theme = sheet, content, theme
        self.first = look.page * content.shown
        self.bars = min(content.shown, content.bars - self.first)
        self.found = Setting(content, sheet.width, sheet.height, theme)
        self.u = self.found.u
        near = self.found.nearest() / (2.6 * RADIUS)
        self.size = self.u * min(1.0, max(near, NEAREST / (2.6 * RADIUS)), 0.35 + 0.65 * self.found.share)
        self.strokes = Strokes(sheet, self.size)

    def draw(self) -> None:
        for number, pattern in enumerate(self.content.patterns):
            self._backbeats(number, pattern)
            self._groups(number, pattern)
            self._lines(number, pattern)
            self._count(number, pattern)
            self._head(number, pattern)
            for voice, line in enumerate(pattern.lines):
                self._strokes(number, pattern, voice, line)
        self._say()

    def _head(self, number: int, pattern: Pattern) -> None:
        found, colours = self.found, self.theme.colours
        left = PADDING * self.u if not self.content.beside or number == 0 else found.block(number).left
        baseline = found.block(number).top + CAP * found.title
        name, said = found.name(pattern), found.said(pattern)
        self.sheet.type(name, left, baseline, colours.ink)
        if found.own_line:
            self.sheet.type(said, left, baseline + 1.6 * self.u + CAP * found.small, colours.quiet)
        else:
            self.sheet.type(said, left + name.width + 2 * self.u, baseline, colours.quiet)

    def _backbeats(self, number: int, pattern: Pattern) -> None:
        """A pale band down from the count under each backbeat."""
        found, u = self.found, self.u
        colours = self.theme.colours
        top = found.count_line(number) - CAP * found.small - 1.1 * u
        bottom = found.y(number, len(pattern.lines) - 1) + 1.9 * u
        for bar in range(self.bars):
            for beat in pattern.backbeats:
                x = found.x(number, bar + Fraction(beat - 1, pattern.beats))
                left, right = x - 2.2 * u, x + 2.2 * u
                corners = [(left, top), (right, top), (right, bottom), (left, bottom)]
                self.sheet.polygon(corners, colours.rule, 0.26)

    def _groups(self, number: int, pattern: Pattern) -> None:
        """A thin line before each group of an odd meter's beats but the first."""
        found, u = self.found, self.u
        top = found.count_line(number) - CAP * found.small
        bottom = found.y(number, len(pattern.lines) - 1) + 1.9 * u
        thin = over(self.theme.colours.rule, 0.55, self.theme.colours.panel)
        for bar in range(self.bars):
            for beat in pattern.groups[1:]:
                x = found.x(number, bar + (beat - Fraction(3, 2)) / pattern.beats)
                self.sheet.rectangle(x - 0.1 * u, top, x + 0.1 * u, bottom, thin)

    def _lines(self, number: int, pattern: Pattern) -> None:
        found, u, colours = self.found, self.u, self.theme.colours
        block = found.block(number)
        right = block.left + self.bars * found.bar
        thin = over(colours.rule, 0.55, colours.panel)
        for voice, name in enumerate(self.content.voices):
            y = found.y(number, voice)
            for left, end in self._uncut(number, pattern.lines[voice], block.left, right):
                self.sheet.rectangle(left, y - 0.1 * u, end, y + 0.1 * u, thin)
            if number == 0 or not self.content.beside:
                label = plain(name, found.small, self.theme.weights.regular)
                self.sheet.type(label, PADDING * u, y + CAP * found.small / 2, colours.ink)
        top, bottom = found.y(number, 0) - 1.9 * u, found.y(number, len(pattern.lines) - 1) + 1.9 * u
        ends = self.first + self.bars == self.content.bars
        for bar in range(self.bars + (not ends)):
            x = block.left + bar * found.bar
            self.sheet.rectangle(x - 0.125 * u, top, x + 0.125 * u, bottom, colours.rule)
        if ends:
            self._repeat(right + (TAIL - 0.35) * u, top, bottom)

    def _uncut(
        self, number: int, line: VoiceLine, left: float, right: float
    ) -> Iterator[tuple[float, float]]:
        """What is drawn of a voice's line: it does not run through what is hollow."""
        hollow = {*line.missing, *(stroke.at for stroke in line.strokes if is_hollow(stroke))}
        for at in sorted(hollow):
            if self._here(at):
                x = self.found.x(number, at - self.first)
                yield left, x - 1.15 * self.size
                left = x + 1.15 * self.size
        yield left, right

    def _repeat(self, x: float, top: float, bottom: float) -> None:
        """The sign that a pattern goes round again, as written music has it."""
        u, colour = self.u, self.theme.colours.rule
        self.sheet.rectangle(x - 0.35 * u, top, x + 0.35 * u, bottom, colour)
        self.sheet.rectangle(x - 1.1 * u, top, x - 0.85 * u, bottom, colour)
        for lift in (-1.0, 1.0):
            self.sheet.dot(x - 1.9 * u, (top + bottom) / 2 + lift * u, 0.4 * u, colour)

    def _count(self, number: int, pattern: Pattern) -> None:
        """The beats, and what is counted between them; a short stroke where nothing is."""
        found, u, colours = self.found, self.u, self.theme.colours
        baseline = found.count_line(number)
        step = float(Fraction(1, pattern.beats * pattern.steps)) * (found.bar - 3 * u)
        spoken = dict(pattern.syllables) if step >= SYLLABLE * u else {}
        for bar in range(self.bars):
            for place in range(pattern.beats * pattern.steps):
                beat, part = divmod(Fraction(place, pattern.steps), 1)
                x = found.x(number, bar + Fraction(place, pattern.beats * pattern.steps))
                if part == 0:
                    light = pattern.groups and int(beat) + 1 not in pattern.groups
                    line = plain(str(int(beat) + 1), found.small, self._weight(pattern, int(beat) + 1))
                    self.sheet.type(line, x, baseline, colours.quiet if light else colours.ink, "middle")
                elif part in spoken:
                    line = plain(spoken[part], found.small, self.theme.weights.regular)
                    self.sheet.type(line, x, baseline, colours.quiet, "middle")
                else:
                    top = baseline - CAP * found.small / 2 - 0.5 * u
                    self.sheet.rectangle(x - 0.15 * u, top, x + 0.15 * u, top + u, colours.rule)

    def _weight(self, pattern: Pattern, beat: int) -> Weight:
        """Beats that begin a group, or the backbeats, are counted louder."""
        weights = self.theme.weights
        if beat in pattern.backbeats:
            return weights.heavy
        return weights.regular if pattern.groups and beat not in pattern.groups else weights.strong

    def _strokes(self, number: int, pattern: Pattern, voice: int, line: VoiceLine) -> None:
        y, colours = self.found.y(number, voice), self.theme.colours
        for stroke in line.strokes:
            if self._here(stroke.at):
                x = self.found.x(number, stroke.at - self.first)
                self.strokes.stroke(x, y, stroke, colours.next if stroke.differs else colours.ink)
                if stroke.differs:
                    self.strokes.underline(x, y, colours.next)
        for at in line.missing:
            if self._here(at):
                self.strokes.dotted(self.found.x(number, at - self.first), y, colours.next)

    def _here(self, at: Fraction) -> bool:
        """Whether a moment is on this page."""
        return self.first <= at < self.first + self.bars

    def _say(self) -> None:
        found = self.found
        last = len(self.content.patterns) - 1
        baseline = found.y(last, len(self.content.voices) - 1) + (1.5 + OVER_WORDS) * self.u
        for text in found.words:
            line = plain(text, found.small, self.theme.weights.regular)
            self.sheet.type(line, PADDING * self.u, baseline + CAP * found.small, self.theme.colours.ink)
            baseline += found.leading


def pointer_line(found: Setting, number: int) -> float:
    """The middle of the pointer's way over a pattern's count."""
    return found.count_line(number) - CAP * found.small - (POINTER / 2 + 0.3) * found.u

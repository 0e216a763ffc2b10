"""Mistakes in what stands beside an excerpt: voices, ducking, SoundFonts, callouts."""

from __future__ import annotations

_VOICE = "    narration: "

OTHERS: list[tuple[dict[str, str], list[str]]] = [
    (
        {"segment": f"{_VOICE}voice/hok.wav\n"},
        ["40:16: There is no file 'voice/hok.wav'; did you mean 'voice/hook.wav'?"],
    ),
    (
        {"segment": f"{_VOICE}footage/take.mp4\n"},
        ["40:16: 'footage/take.mp4' has no sound in it; a narration is"],
    ),
    ({"segment": f"{_VOICE}audio/notes.txt\n"}, ["40:16: 'notes.txt' cannot be read as sound or video"]),
    ({"segment": f"{_VOICE}{{from: 0:01}}\n"}, ["40:16: 'narration' needs 'file'."]),
    (
        {"segment": f"{_VOICE}{{file: voice/hook.wav, to: 0:04}}\n"},
        ["40:43: 0:04 is past the end of 'voice/hook.wav', which lasts 0:03."],
    ),
    (
        {"segment": f"{_VOICE}{{file: voice/hook.wav, from: 0:03}}\n"},
        ["40:45: 0:03 is past the end of 'voice/hook.wav', which lasts 0:03."],
    ),
    (
        {"segment": f"{_VOICE}{{file: voice/hook.wav, from: 0:02, to: 0:01}}\n"},
        ["40:55: The narration would end at 0:01, before it starts at 0:02."],
    ),
    (
        {"segment": f"{_VOICE}voice/hook.wav\n    camera: {{take: footage/take.mp4}}\n", "excerpt": ""},
        ["39:16: The narration would run to 0:03, but the take makes the clip 0:02; use more of the take"],
    ),
    (
        {
            "segment": f"{_VOICE}{{file: voice/hook.wav, to: 0:01, at: 1.5}}\n    camera: {{take: footage/take.mp4}}\n",
            "excerpt": "",
        },
        ["39:53: The narration would run to 0:02.5, but the take makes the clip 0:02"],
    ),
    ({"segment": f"{_VOICE}[voice/hook.wav]\n"}, ["40:16: 'narration' is a group of keys, not a list."]),
    ({"episode": "  ducking: 15\n"}, ["5:12: '15' has no unit; write 15 dB."]),
    ({"episode": "  ducking: -15 dB\n"}, ["5:12: '-15 dB' says by how much something goes down"]),
    ({"episode": "  ducking: a lot\n"}, ["5:12: 'a lot' is not a level; write decibels, as 15 dB, or off."]),
    (
        {"episode": "  ducking: {attack: 150}\n"},
        [
            "5:21: '150' is too slow to be heard as one move; the most is 10 s, and a bare number is seconds: "
            "did you mean 0.15?"
        ],
    ),
    ({"episode": "  ducking: {attack: 150 ms}\n"}, ["5:21: '150 ms' is written 0.15 here"]),
    (
        {"episode": "  ducking: {by: off, attack: 0.1}\n"},
        ["5:22: The music stays as loud as it is here, so 'attack' has nothing to move; leave it out."],
    ),
    (
        {"episode": "  ducking: off\n", "segment": "    ducking: {release: 0.5}\n"},
        [
            "41:14: Music stays as loud under a voice in this episode, so say by how much it goes down here, "
            "as {by: 15 dB, release: 0.5}."
        ],
    ),
    ({"segment": "    scratch-voice: de\n"}, ["40:5: 'scratch-voice' belongs to the episode"]),
    (
        {"segment": "    play: chords\n"},
        ["40:5: 'play' belongs in 'excerpt', as excerpt: {where: chorus, play: chords}."],
    ),
    (
        {"segment": f"{_VOICE}{{file: voice/hook.wav, at: 1:00:01}}\n"},
        ["40:43: '1:00:01' is longer than any use"],
    ),
    ({"episode": "  scratch-voice: xx\n"}, ["5:18: 'xx' is not a language of the scratch voice; write yes"]),
    (
        {"callouts": "    callouts: [{kind: chords, pass: two}]\n"},
        ["40:37: 'two' is not the number of a pass; write 2."],
    ),
    (
        {"callouts": "    callouts: [{kind: chords, pass: [1, 3]}]\n"},
        ["40:37: A callout shows in one pass or in each; write one callout for each of these passes."],
    ),
    (
        {"episode": "  ducking: {by: 9 dB, atack: 1}\n"},
        ["5:23: 'atack' is not a key of 'ducking'; did you mean"],
    ),
    ({"episode": "  ducking: {attack: 60}\n"}, ["5:21: '60' is too slow to be heard as one move"]),
    ({"segment": "    ducking: {release: slow}\n"}, ["40:24: 'slow' is not a time"]),
    ({"episode": "  scratch-voice: German\n"}, ["5:18: 'German' is written de here."]),
    (
        {"episode": "  scratch-voice: en_gb\n"},
        ["5:18: 'en_gb' is not a language of the scratch voice; did you mean"],
    ),
    (
        {"episode": "  scratch-voice: robot\n"},
        ["5:18: 'robot' is not a language of the scratch voice; write yes"],
    ),
    ({"episode": "  scratch voice: yes\n"}, ["5:3: 'scratch voice' is not a key of 'episode'; did you mean"]),
    ({"episode": "  soundfont: mine.sf2\n"}, ["5:14: There is no file 'mine.sf2'"]),
    (
        {"episode": "  soundfont: audio/mix.flac\n"},
        ["5:14: 'audio/mix.flac' is not a SoundFont; those are files that end in .sf2 or .sf3."],
    ),
    (
        {"excerpt": "where: 5, at: after the voice", "segment": "    camera: {take: footage/loud.mp4}\n"},
        ["39:29: The voice is the take's own sound, which lasts as long as the clip; say at what time"],
    ),
    (
        {"excerpt": "where: 5, repeat: 2", "segment": "    camera: {take: footage/take.mp4}\n"},
        ["39:22: The excerpt would run to 0:04, but the take makes the clip 0:02"],
    ),
    (
        {"callouts": "    callouts: [{kind: chords, pass: 2}]\n"},
        ["40:37: The excerpt is heard once, so it has no pass 2."],
    ),
    (
        {"excerpt": "where: 5, repeat: 3", "callouts": "    callouts: [{kind: chords, pass: 4}]\n"},
        ["40:37: The excerpt is heard three times, so it has no pass 4."],
    ),
    (
        {
            "excerpt": "where: 5, repeat: 2",
            "callouts": "    callouts: [{kind: chords, pass: 2, when: 0:01-0:02}]\n",
        },
        ["40:37: 'when' says already at what time the chords callout shows; write one of them."],
    ),
    (
        {"callouts": "    callouts: [{kind: chords, pass: 0}]\n"},
        ["40:37: '0' is too small for 'pass'; the least is 1."],
    ),
    (
        {"excerpt": "", "callouts": "    callouts: [{kind: chords, pass: 1}]\n"},
        ["39:37: There is no excerpt here whose pass 1 could be heard; add one."],
    ),
]

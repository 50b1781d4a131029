"""The signal at the end of a time on a page: three short tones, and a phone that shakes, as the member chose."""

from __future__ import annotations

from tracker.desk.day.resting import RestWays

SCRIPT = """
    if ({vibration} && navigator.vibrate) navigator.vibrate([200, 100, 200]);
    if (!{sound}) return;
    const Context = window.AudioContext || window.webkitAudioContext;
    if (!Context) return;
    const audio = new Context();
    [0, 0.25, 0.5].forEach((at) => {{
      const tone = audio.createOscillator(), volume = audio.createGain();
      tone.frequency.value = 880;
      volume.gain.value = 0.2;
      tone.connect(volume).connect(audio.destination);
      tone.start(audio.currentTime + at);
      tone.stop(audio.currentTime + at + 0.12);
    }});
    setTimeout(() => audio.close(), 1500);
"""


def signal(ways: RestWays) -> str:
    """Return the end of a function in JavaScript that gives the signal."""
    return SCRIPT.format(sound=str(ways.sound).lower(), vibration=str(ways.vibration).lower()).strip()

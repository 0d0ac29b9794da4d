"""What a logger's record says of a room: its humidity through the year, the band of EN 15757, what timber feels.

The method of the band is in seasonal_level, the record in humidity_record and logger. It does
not say what band a collection bears; it says what the room's own past has been.
"""

from __future__ import annotations

from .limits import rounded_up
from .seasonal_level import SOURCE, Band, Outside
from .verdict import Verdict, Word

HOUR_S = 3600.0


def humidity_verdict(found: Band, beyond: Outside) -> Verdict:
    """Whether the humidity kept within its band.

    found    the band, % RH
    beyond   what lies outside it, s
    returns  verdict on the longest time outside, in hours; the limit is none at all

    Source: SOURCE.
    Raises nothing.

    >>> str(humidity_verdict(Band(3600, 0, [], -4, 4, -10, 10), Outside(0, 0, None)).word)
    'within'
    """
    hours = rounded_up(beyond.longest_s / HOUR_S)
    limits = f"{found.low:+.1f} to {found.high:+.1f} % RH about the seasonal level"
    if beyond.readings:
        word, sentence = Word.OVER, f"The humidity left {limits}, once for {hours:.10g} h on end."
    else:
        word, sentence = Word.WITHIN, f"The humidity kept within {limits}."
    working = (
        ("7th percentile", f"{found.percentile_low:+.1f} % RH"),
        ("93rd percentile", f"{found.percentile_high:+.1f} % RH"),
        ("Readings outside", str(beyond.readings)),
    )
    return Verdict("humidity-band", word, hours, 0.0, -hours, "h", sentence, SOURCE, working=working)

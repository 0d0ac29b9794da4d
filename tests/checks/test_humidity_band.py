"""What a logger's record says of a room: the whole answer, in parts and together."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from fieldbook.calculations.catalogue import calculate
from fieldbook.checks import humidity_band
from fieldbook.checks.seasonal_level import SOURCE, Band, Outside
from fieldbook.checks.verdict import Word
from tests.checks import published
from tests.checks.refusals import check_refusals, refused

COLUMNS = {"time": "When", "humidity": "RH"}
DAILY = [row["humidity_pct"] for row in published.rows("humidity_daily.csv")]

OF_THE_YEAR = {
    "yearly_mean_pct",
    "seasonal_cycle_pct",
    "percentile_low_pct",
    "percentile_high_pct",
    "outside_percentiles",
    "band_low_pct",
    "band_high_pct",
    "outside_band",
    "longest_outside_h",
    "longest_outside_from",
}


def record(humidities, every=timedelta(days=1), start=datetime(2023, 1, 1), warmth=None):
    lines = ["When;RH;T" if warmth else "When;RH"]
    for place, humidity in enumerate(humidities):
        cells = [str(start + place * every), f"{humidity}"] + ([f"{warmth(place)}"] if warmth else [])
        lines.append(";".join(cells))
    return "\n".join(lines)


def test_whole_answer_for_thirteen_months_of_daily_readings():
    """Every figure of the answer is there, and those that can be checked elsewhere agree."""
    answer = calculate("humidity-band", {"csv": record(DAILY), "columns": COLUMNS, "temperature_c": 20})
    assert answer.pop("yearly_mean_pct") == pytest.approx(sum(DAILY[-365:]) / 365)
    assert answer.pop("mean_pct") == pytest.approx(sum(DAILY) / 395)
    # percentiles and 52 readings outside: reckoned independently with numpy 2.4.6
    assert answer.pop("percentile_low_pct") == pytest.approx(-3.637561, abs=6e-7)
    assert answer.pop("percentile_high_pct") == pytest.approx(3.687587, abs=6e-7)
    cycle = answer.pop("seasonal_cycle_pct")
    assert list(cycle) == [f"2023-{month:02}" for month in range(1, 13)] + ["2024-01"]
    # Equation 4-5 at 20 °C, reckoned independently: 33.92 % lies between 30 (6.1882) and 40 % (7.7224), and
    # 63.9 % between 60 (10.9998) and 65 % (11.9963)
    assert 6.1882 < answer.pop("from_pct") < 7.7224
    assert 10.9998 < answer.pop("to_pct") < 11.9963
    (reason,) = answer.pop("not_known")
    assert "a reading an hour" in reason
    verdict, working, sources = (answer.pop(key) for key in ("verdict", "working", "source"))
    assert (verdict["word"], len(sources)) == ("within", 2)
    assert ["Readings outside", "0"] in working
    assert answer == {
        "from": "2023-01-01T00:00:00",
        "to": "2024-01-30T00:00:00",
        "readings": 395,
        "empty": 0,
        "clock_put_back": 0,
        "every_h": 24,
        "gaps": 0,
        "longest_gap_h": 0,
        "missing_pct": 0,
        "lowest_pct": min(DAILY),
        "highest_pct": max(DAILY),
        "outside_percentiles": 52,
        "band_low_pct": -10,
        "band_high_pct": 10,
        "outside_band": 0,
        "longest_outside_h": 0,
        "longest_outside_from": None,
        "driest_day_pct": min(DAILY),
        "dampest_day_pct": max(DAILY),
    }


def test_seasonal_cycle_is_the_mean_level_of_each_month():
    """A steady rise of a tenth of a percent a day has its middle in the middle of the month."""
    rising = [30 + 0.1 * day for day in range(395)]
    cycle = calculate("humidity-band", {"csv": record(rising), "columns": COLUMNS})["seasonal_cycle_pct"]
    # day 31 is 1 February, day 58 the 28th: mean of the 28 days 44.5; the level of a line is the line
    assert cycle["2023-02"] == pytest.approx(30 + 0.1 * 44.5)
    # of January the first fifteen days have no level: days 15 to 30
    assert cycle["2023-01"] == pytest.approx(30 + 0.1 * 22.5)


def test_hourly_record_with_a_wet_spell_tells_when_and_how_long():
    """Thirty hours of wet in a quiet year are found to the hour."""
    hours = 24 * 395
    wet = range(4000, 4030)
    humidities = [80 if hour in wet else 50 for hour in range(hours)]
    text = record(humidities, timedelta(hours=1), warmth=lambda place: 20 if place < 4900 else 15)
    answer = calculate("humidity-band", {"csv": text, "columns": COLUMNS | {"temperature": "T"}})
    assert (answer["outside_band"], answer["longest_outside_h"], answer["verdict"]["word"]) == (30, 30, "over")
    assert answer["longest_outside_from"] == str(datetime(2023, 1, 1) + timedelta(hours=4000)).replace(" ", "T")
    assert answer["every_h"] == 1
    assert answer["not_known"] == []
    # days 166 and 167 hold 8 and 22 of the wet hours
    assert answer["dampest_day_pct"] == pytest.approx(50 + 30 * 22 / 24)
    # Equation 4-5: 20 °C 50 % 9.2711; 15 °C is damper at the same humidity, 20 °C 75 to 80 % 14.4509 to 16.0371
    assert answer["from_pct"] == pytest.approx(9.2711, abs=0.00006)
    assert 14.4509 < answer["to_pct"] < 16.0371


def test_yearly_mean_is_of_the_last_365_days():
    """The month too many does not count twice."""
    humidities = [90] * 40 + [50] * 365
    answer = calculate("humidity-band", {"csv": record(humidities), "columns": COLUMNS})
    assert answer["yearly_mean_pct"] == 50


def test_short_record_has_all_but_the_band():
    """Three months give the mean and the range for movement; the band is not known, and says why."""
    answer = calculate("humidity-band", {"csv": record(DAILY[:90]), "columns": COLUMNS, "temperature_c": 20})
    assert {key for key, value in answer.items() if value is None} == OF_THE_YEAR
    assert answer["verdict"]["word"] == "not known"
    assert len(answer["not_known"]) == 1
    assert "thirteen months" in answer["not_known"][0]
    assert "Go on recording" in answer["not_known"][0]
    assert answer["mean_pct"] == pytest.approx(sum(DAILY[:90]) / 90)
    assert answer["from_pct"] < answer["to_pct"]


def test_record_without_temperature_has_no_moisture_contents():
    """The range for movement needs a temperature, and says so."""
    answer = calculate("humidity-band", {"csv": record(DAILY), "columns": COLUMNS})
    assert (answer["from_pct"], answer["to_pct"]) == (None, None)
    assert (answer["driest_day_pct"], answer["dampest_day_pct"]) == (min(DAILY), max(DAILY))
    assert any("temperature_c" in reason for reason in answer["not_known"])


def test_gaps_are_counted_and_measured():
    """Gaps, the longest one, and the share of the time they take."""
    rows = [["When", "RH"]] + [[f"2024-01-01 {hour:02}:00", 50] for hour in range(24) if hour not in (5, 6, 12, 13, 14)]
    rows[2][1] = None
    answer = calculate("humidity-band", {"rows": rows, "columns": COLUMNS})
    assert (answer["readings"], answer["empty"], answer["gaps"], answer["longest_gap_h"]) == (18, 1, 2, 4)
    # 2 and 3 hours of 23 are missing
    assert answer["missing_pct"] == pytest.approx(100 * 5 / 23)
    assert (answer["from"], answer["to"]) == ("2024-01-01T00:00:00", "2024-01-01T23:00:00")


def test_rows_and_text_give_the_same():
    """Cells already split are no different from a file."""
    rows = [["When", "RH"]] + [
        [str(datetime(2023, 1, 1) + timedelta(days=day)), value] for day, value in enumerate(DAILY)
    ]
    payload = {"columns": COLUMNS, "temperature_c": 20}
    from_rows = calculate("humidity-band", payload | {"rows": rows})
    from_text = calculate("humidity-band", payload | {"csv": record(DAILY)})
    assert from_rows | {"working": None} == from_text | {"working": None}


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
def test_any_end_of_line_is_read(ending):
    """Files come from every kind of machine."""
    answer = calculate("humidity-band", {"csv": record([50, 60]).replace("\n", ending), "columns": COLUMNS})
    assert (answer["readings"], answer["mean_pct"], answer["lowest_pct"], answer["highest_pct"]) == (2, 55, 50, 60)


def test_clock_change_and_order_of_dates_reach_the_reader():
    """date_order and the change of the clock are passed on and told."""
    text = "When;RH\n27/10/2024 02:30;50\n27/10/2024 02:00;50\n28/10/2024 00:00;50"
    answer = calculate("humidity-band", {"csv": text, "columns": COLUMNS, "date_order": "day first"})
    assert (answer["clock_put_back"], answer["from"], answer["to"]) == (1, "2024-10-27T02:30:00", "2024-10-28T01:00:00")


def test_verdict_tells_the_longest_time_outside():
    """The figure is hours, rounded up; the limit is none at all."""
    found = Band(3600.0, 0, [], -12.34, 8.2, -12.34, 10)
    verdict = humidity_band.humidity_verdict(found, Outside(7, 5 * 3600 + 1, 0.0))
    assert (verdict.check, verdict.word, verdict.unit, verdict.source) == ("humidity-band", Word.OVER, "h", SOURCE)
    assert (verdict.figure, verdict.limit, verdict.margin) == (5.1, 0, -5.1)
    assert "-12.3 to +10.0 % RH" in verdict.sentence
    assert "5.1 h on end" in verdict.sentence
    assert verdict.working == (
        ("7th percentile", "-12.3 % RH"),
        ("93rd percentile", "+8.2 % RH"),
        ("Readings outside", "7"),
    )


def test_verdict_without_a_reading_outside_is_within():
    """Nothing outside is nothing over."""
    verdict = humidity_band.humidity_verdict(Band(3600.0, 0, [], -4, 4, -10, 10), Outside(0, 0.0, None))
    assert (verdict.word, verdict.figure, verdict.limit, verdict.margin) == (Word.WITHIN, 0, 0, 0)
    assert "kept within -10.0 to +10.0 % RH" in verdict.sentence


def test_bad_input_is_refused():
    """One record, its columns, and nothing unknown."""
    good = {"csv": record([50, 60]), "columns": COLUMNS}
    check_refusals("humidity-band", good, ())
    for value, code in (
        (float("nan"), "out-of-range"),
        (133, "out-of-range"),
        (-1.2, "out-of-range"),
        ("20", "not-a-number"),
    ):
        with refused(code, "temperature_c"):
            calculate("humidity-band", good | {"temperature_c": value})
    with refused("missing", "columns"):
        calculate("humidity-band", {"csv": good["csv"]})
    with refused("wrong-use", "csv") as caught:
        calculate("humidity-band", {"columns": COLUMNS})
    assert "missing" in caught.value.reason
    with refused("wrong-use", "csv") as caught:
        calculate("humidity-band", good | {"rows": []})
    assert "both given" in caught.value.reason
    with refused("unsuitable-text", "csv"):
        calculate("humidity-band", good | {"csv": 3})
    with refused("unsuitable-shape", "rows"):
        calculate("humidity-band", {"rows": "text", "columns": COLUMNS})
    with refused("missing", "csv"):
        calculate("humidity-band", good | {"csv": ""})

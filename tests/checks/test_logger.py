"""Reading a logger's file: whatever its headers, delimiter, decimals and times, or a refusal that names the row."""

from __future__ import annotations

import csv
import io
import math
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.checks import logger
from tests.checks.refusals import refused

COLUMNS = {"time": "When", "humidity": "RH"}
NEW_YEAR_S = 1_704_067_200.0  # 2024-01-01T00:00:00Z


def read(text, columns=COLUMNS, date_order=None):
    return logger.read(io.StringIO(text), columns, date_order)


def hours(log):
    """Times as hours since the first."""
    return [(now - log.seconds[0]) / 3600 for now in log.seconds]


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_any_delimiter_is_found(delimiter):
    """The delimiter is the one under which the mapped headers stand side by side."""
    log = read(f"No.{delimiter}When{delimiter}RH\n1{delimiter}2024-01-01 00:00{delimiter}50.5\n")
    assert (list(log.seconds), list(log.humidity_pct)) == ([NEW_YEAR_S], [50.5])


def test_header_names_are_whatever_the_file_has():
    """Names are mapped once, in any case, with outer spaces and a byte order mark passed over."""
    text = "\ufeff Zeit ;\u00a0rel. Feuchte (%);Raum °C\n2024-01-01 00:00;51;18\n"
    log = read(text, {"time": "zeit", "humidity": "Rel. Feuchte (%)", "temperature": "RAUM °C"})
    assert (log.humidity_pct[0], log.temperature_c[0]) == (51, 18)


def test_lines_before_the_header_are_passed_over():
    """Loggers write their settings first, in up to a hundred lines."""
    settings = "Serial;17\nInterval;10 min\n\nWhen, as set;\n"
    log = read(settings + "When;RH\n2024-01-01 00:00;50\n")
    assert list(log.humidity_pct) == [50]
    read("x\n" * 99 + "When;RH\n2024-01-01;50\n")
    with refused("missing", "columns"):
        read("x\n" * 100 + "When;RH\n2024-01-01;50\n")


@pytest.mark.parametrize("cell", ["51.5", "51,5", " 51,5 ", "51.50", "5,15e1"])
def test_decimal_point_and_comma_may_be_mixed(cell):
    """Both mean the same, row by row."""
    log = read(f"When;RH\n2024-01-01 00:00;51.5\n2024-01-01 01:00;{cell}\n")
    assert list(log.humidity_pct) == [51.5, 51.5]


def test_decimal_comma_in_quotes_is_read():
    """A comma inside quotes splits nothing."""
    assert list(read('When,RH\n2024-01-01 00:00,"51,5"\n').humidity_pct) == [51.5]


def test_decimal_comma_that_splits_the_row_is_refused_by_row():
    """A third cell under two headers cannot be told from a third column."""
    with refused("unsuitable-shape", "csv row 3 cells") as caught:
        read("When,RH\n2024-01-01 00:00,50\n2024-01-01 01:00,51,5\n")
    assert "3 cells; the header has 2" in caught.value.reason
    assert caught.value.value == "2024-01-01 01:00 | 51 | 5"


def test_row_that_is_too_short_is_refused_by_row():
    """A truncated last row is not guessed at."""
    with refused("unsuitable-shape", "csv row 2 cells"):
        read("When;RH\n2024-01-01 00\n")


def test_empty_rows_and_empty_extra_cells_are_passed_over():
    """Blank lines and a delimiter at the end of the line mean nothing."""
    log = read("When;RH\n\n2024-01-01 00:00;50;\n;\n ; ; \n2024-01-01 01:00;51; ;\n")
    assert list(log.humidity_pct) == [50, 51]
    # the row with the right number of cells but nothing in them counts as one without a reading
    assert log.empty == 1


@pytest.mark.parametrize("cell", ["", " ", "-", "--", "---", "NaN", "nan", "N/A", "NA", "null", "None", "Error", "ERR"])
def test_cell_without_a_reading_is_a_gap(cell):
    """What loggers write for no reading is counted and left out."""
    log = read(f"When;RH\n2024-01-01 00:00;50\n2024-01-01 01:00;{cell}\n2024-01-01 02:00;52\n")
    assert (hours(log), list(log.humidity_pct), log.empty) == ([0, 2], [50, 52], 1)


@pytest.mark.parametrize("cell", ["", "--", "nan"])
def test_row_without_a_temperature_keeps_its_humidity(cell):
    """A missing temperature is not a number beside its humidity."""
    log = read(f"When;RH;T\n2024-01-01;50;18,5\n2024-01-02;51;{cell}\n", COLUMNS | {"temperature": "T"})
    assert list(log.humidity_pct) == [50, 51]
    assert log.temperature_c[0] == 18.5
    assert math.isnan(log.temperature_c[1])
    assert log.empty == 0


def test_record_without_a_temperature_column_has_none():
    """No temperature is asked for where there is none."""
    assert len(read("When;RH\n2024-01-01;50\n").temperature_c) == 0


@pytest.mark.parametrize(
    ("cell", "code"),
    [
        ("damp", "not-a-number"),
        ("5O", "not-a-number"),
        ("1.051,5", "not-a-number"),
        ("100.1", "out-of-range"),
        ("-0.1", "out-of-range"),
        ("inf", "out-of-range"),
        ("1e400", "out-of-range"),
        ("50 %", "not-a-number"),
    ],
)
def test_humidity_that_is_none_is_refused_by_row_and_column(cell, code):
    """The row, counted as in the file with the lines before the header, and the cell are named."""
    with refused(code, "csv row 4 humidity") as caught:
        read(f"Serial 17\nWhen;RH\n2024-01-01 00:00;50\n2024-01-01 01:00;{cell}\n")
    assert caught.value.value == cell
    assert caught.value.reason.startswith("In row 4, humidity is")


def test_limits_of_the_readings_are_taken():
    """0 and 100 % are readings; so are -45 and 60 °C."""
    log = read("When;RH;T\n2024-01-01;0;-45\n2024-01-02;100;60\n", COLUMNS | {"temperature": "T"})
    assert (list(log.humidity_pct), list(log.temperature_c)) == ([0, 100], [-45, 60])
    for cell in ("-45.1", "60.1"):
        with refused("out-of-range", "csv row 2 temperature"):
            read(f"When;RH;T\n2024-01-01;0;{cell}\n", COLUMNS | {"temperature": "T"})


@pytest.mark.parametrize(
    ("text", "columns"),
    [("", COLUMNS), ("\n \n\n", COLUMNS)],
)
def test_empty_file_is_refused(text, columns):
    """A file without anything says so."""
    with refused("missing", "csv") as caught:
        read(text, columns)
    assert "empty" in caught.value.reason


def test_file_with_a_header_alone_is_refused():
    """A header without readings says so."""
    for rows in ("", "2024-01-01;\n"):
        with refused("missing", "csv") as caught:
            read(f"When;RH\n{rows}")
        assert "no humidity readings" in caught.value.reason


def test_header_that_is_not_there_is_refused_with_what_is():
    """The first line helps to find the right names."""
    with refused("missing", "columns") as caught:
        read("\nDate/time;Humidity\n2024-01-01;50\n")
    assert "when, rh" in caught.value.reason
    assert "Date/time;Humidity" in caught.value.remedy


def test_header_that_stands_twice_is_refused():
    """Two columns of the same name cannot be told apart."""
    with refused("missing", "columns.humidity") as caught:
        read("When;RH;RH\n2024-01-01;50;60\n")
    assert "2 columns" in caught.value.reason


@pytest.mark.parametrize(
    ("columns", "code", "field"),
    [
        ("When", "unsuitable-shape", "columns"),
        ({"time": "When"}, "missing", "columns.humidity"),
        ({"humidity": "RH"}, "missing", "columns.time"),
        (COLUMNS | {"pressure": "P"}, "unknown-field", "columns.pressure"),
        (COLUMNS | {"time": 3}, "unsuitable-text", "columns.time"),
        (COLUMNS | {"humidity": " "}, "unsuitable-text", "columns.humidity"),
        (COLUMNS | {"humidity": None}, "unsuitable-text", "columns.humidity"),
    ],
)
def test_bad_mapping_is_refused(columns, code, field):
    """A mapping names time and humidity, and nothing unknown."""
    with refused(code, field):
        read("When;RH\n2024-01-01;50\n", columns)


@pytest.mark.parametrize(
    ("text", "order"),
    [
        ("2024-03-31 14:05:06", None),
        ("2024-03-31T14:05:06", None),
        ("2024-03-31T14:05:06.75", None),
        (" 2024-03-31 14:05:06 ", None),
        ("2024/03/31 14:05:06", None),
        ("2024/3/31 2:05:06 PM", None),
        ("31.03.2024 14:05:06", None),
        ("31.3.24 14:05:06", None),
        ("31.03.2024 14:05:06,75", None),
        ("31/03/2024 14:05:06", "day first"),
        ("31-03-2024, 14:05:06", "day first"),
        ("03/31/2024 02:05:06 pm", "month first"),
        ("3/31/24 2:05:06PM", "month first"),
        ("03.31.2024 14:05:06", "month first"),
    ],
)
def test_time_is_read_however_it_is_written(text, order):
    """Year first, day first or month first, twelve or twenty-four hours: the same moment."""
    log = read(f"When;RH\n{text};50\n", date_order=order)
    assert int(log.seconds[0]) == datetime(2024, 3, 31, 14, 5, 6, tzinfo=UTC).timestamp()


@pytest.mark.parametrize(
    ("text", "hour"),
    [("12:05 AM", 0), ("1:05 am", 1), ("11:05 AM", 11), ("12:05 PM", 12), ("1:05 pm", 13), ("11:05 PM", 23)],
)
def test_twelve_hour_clock_turns_at_noon_and_midnight(text, hour):
    """Twelve at night is nought, twelve at noon is twelve."""
    log = read(f"When;RH\n1/2/2024 {text};50\n", date_order="day first")
    assert log.seconds[0] == datetime(2024, 2, 1, hour, 5, tzinfo=UTC).timestamp()


def test_date_alone_is_midnight():
    """A daily record has no times of day."""
    assert read("When;RH\n01.01.2024;50\n").seconds[0] == NEW_YEAR_S
    assert read("When;RH\n2024-01-01;50\n").seconds[0] == NEW_YEAR_S


def test_hours_without_a_leading_nought_may_follow():
    """A logger that began at ten writes 9:00 the next morning."""
    log = read("When;RH\n2024-01-01 10:00;50\n2024-01-02 9:00;51\n")
    assert hours(log) == [0, 23]


def test_date_and_time_in_two_columns_are_joined():
    """Some loggers give them apart."""
    columns = {"date": "Day", "time": "Clock", "humidity": "RH"}
    log = read("Day;Clock;RH\n 31/12/2023 ; 23:00;50\n01/01/2024;00:00;51\n", columns, "day first")
    assert log.seconds[1] == NEW_YEAR_S
    assert hours(log) == [0, 1]


def test_times_with_an_offset_become_universal_time():
    """An offset settles the clock, whatever the season."""
    log = read("When;RH\n2024-10-27T02:30:00+02:00;50\n2024-10-27T02:30:00+01:00;51\n2024-10-27T02:30:00Z;52\n")
    assert hours(log) == [0, 1, 2]
    assert log.clock_put_back == 0


def test_day_or_month_first_has_to_be_said():
    """03/04 may be March or April."""
    with refused("missing", "date_order"):
        read("When;RH\n03/04/2024 00:00;50\n")
    assert read("When;RH\n03/04/2024;50\n", date_order="day first").seconds[0] == NEW_YEAR_S + 93 * 86400
    assert read("When;RH\n03/04/2024;50\n", date_order="month first").seconds[0] == NEW_YEAR_S + 63 * 86400
    for order in ("year first", 3, ["day first"]):
        with refused("not-a-choice", "date_order"):
            read("When;RH\n03/04/2024;50\n", date_order=order)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "yesterday",
        "2024-13-01 00:00",
        "2024-01-01 25:00",
        "2024-01-01T00:00:00Z",
        "31.02.2024",
        "1/2-2024",
        "2024-01-01 00:00 XM",
        "2024-01-01 13:00 PM",
        "2024-01-01 0:00 AM",
        "1.1.4",
    ],
)
def test_time_that_cannot_be_read_is_refused_by_row(text):
    """No time is guessed, and times with and without an offset are not mixed."""
    with refused("unsuitable-text", "csv row 3 time") as caught:
        read(f"When;RH\n2024-01-01 00:00;50\n{text};51\n")
    assert caught.value.value == text
    assert f"“{text}”" in caught.value.reason


def test_first_time_that_cannot_be_read_is_refused_by_row():
    """The first row is no exception."""
    with refused("unsuitable-text", "csv row 2 time"):
        read("When;RH\nsoon;50\n")


def test_record_with_the_newest_first_is_turned_round():
    """All columns go with their times."""
    text = "When;RH;T\n2024-01-01 02:00;52;22\n2024-01-01 01:00;51;21\n2024-01-01 00:00;50;20\n"
    log = read(text, COLUMNS | {"temperature": "T"})
    assert (hours(log), list(log.humidity_pct), list(log.temperature_c)) == ([0, 1, 2], [50, 51, 52], [20, 21, 22])


# Summer time in the European Union begins and ends at 01:00 universal time on these days (Directive 2000/84/EC).
SUMMERS = [
    (datetime(2023, 3, 26, 1), datetime(2023, 10, 29, 1)),
    (datetime(2024, 3, 31, 1), datetime(2024, 10, 27, 1)),
]


def local_record(first, last, minutes):
    """Readings at even real intervals from one moment to another, written by a clock an hour ahead, two in summer."""
    moment, lines = datetime.fromisoformat(first), []
    while moment <= datetime.fromisoformat(last):
        summer = any(begins <= moment < ends for begins, ends in SUMMERS)
        lines.append(f"{moment + timedelta(hours=1 + summer):%Y-%m-%d %H:%M};50")
        moment += timedelta(minutes=minutes)
    return "When;RH\n" + "\n".join(lines)


@pytest.mark.parametrize("minutes", [5, 10, 30])
def test_clock_put_back_in_autumn_keeps_the_intervals(minutes):
    """After the change an hour is added, so that even intervals stay even."""
    log = read(local_record("2024-10-26T20:00", "2024-10-27T06:00", minutes))
    steps = {round(after - before) for before, after in zip(log.seconds, log.seconds[1:], strict=False)}
    assert steps == {minutes * 60}
    assert log.clock_put_back == 1


def test_clock_put_back_between_hourly_readings_shows_one_hour_twice():
    """Two readings of the same hour are taken as they stand."""
    log = read(local_record("2024-10-26T23:00", "2024-10-27T03:00", 60))
    assert hours(log) == [0, 1, 1, 2, 3]
    assert log.clock_put_back == 0


def test_clock_put_forward_in_spring_leaves_one_empty_hour():
    """An hour that never was is a gap of an hour."""
    log = read(local_record("2024-03-30T23:00", "2024-03-31T03:00", 60))
    assert hours(log) == [0, 1, 3, 4, 5]


def test_clock_put_back_two_years_running_is_two_changes():
    """Each autumn adds an hour; nothing is taken off in between."""
    log = read(local_record("2023-10-28T00:00", "2024-10-28T00:00", 30))
    assert log.clock_put_back == 2
    # the hour added in the first autumn stays when the clock goes forward, which leaves one empty hour
    assert log.seconds[-1] - log.seconds[0] == (366 * 24 + 1) * 3600


@pytest.mark.parametrize(
    ("before", "after", "refuse"),
    [("03:00", "02:00", False), ("03:00", "01:59", True), ("03:00", "03:00", False), ("03:00", "02:59", False)],
)
def test_time_may_run_backwards_by_an_hour_at_most(before, after, refuse):
    """More than an hour is no change of the clock but a muddled file."""
    text = f"When;RH\n2024-10-27 {before};50\n2024-10-27 {after};51\n2024-10-28 00:00;52\n"
    if refuse:
        with refused("unsuitable-shape", "csv row 3 time"):
            read(text)
    else:
        assert read(text).clock_put_back == (before != after)


@pytest.mark.parametrize(("minutes_short", "refuse"), [(1, True), (0, False)])
def test_clock_goes_back_once_in_half_a_year(minutes_short, refuse):
    """A second change within 180 days is a muddled file."""
    first = datetime(2024, 1, 1, 3)
    # the hour added at the first change is part of the time between them
    between = timedelta(days=180, hours=-1, minutes=-minutes_short)
    half = timedelta(minutes=30)
    moments = [first, first - half, first + between, first + between - half, first + between + half]
    text = "When;RH\n" + "\n".join(f"{moment};50" for moment in moments)
    if refuse:
        with refused("unsuitable-shape", "csv row 5 time"):
            read(text)
    else:
        log = read(text)
        assert log.clock_put_back == 2
        assert hours(log) == [0, 0.5, 180 * 24, 180 * 24 + 0.5, 180 * 24 + 1.5]


def test_same_time_twice_is_no_change_of_the_clock():
    """Only time that runs backwards is."""
    log = read("When;RH\n2024-10-27 03:00;50\n2024-10-27 03:00;50\n2024-10-27 02:30;51\n2024-10-27 04:00;51\n")
    assert (log.clock_put_back, hours(log)) == (1, [0, 0, 0.5, 2])


def test_time_with_an_offset_never_runs_backwards():
    """Universal time is never put back."""
    with refused("unsuitable-shape", "csv row 3 time"):
        read("When;RH\n2024-01-01T03:00Z;50\n2024-01-01T02:30Z;51\n2024-01-02T02:30Z;51\n")


def test_row_where_time_runs_backwards_is_the_files_row_after_gaps():
    """Rows without a reading are counted on the way."""
    with refused("unsuitable-shape", "csv row 5 time") as caught:
        read("When;RH\n2024-01-02;50\n2024-01-03;\n\n2024-01-01;50\n2024-01-04;50\n")
    assert "row 5" in caught.value.reason


def test_cell_longer_than_a_file_can_have_is_refused_by_row():
    """An unclosed quote swallows the rest; the row it begins in is named."""
    with refused("unsuitable-text", "csv row 3") as caught:
        read('When;RH\n2024-01-01;50\n"2024-01-02;' + "x" * (csv.field_size_limit() + 1))
    assert caught.value.reason.startswith("Row 3 ")


def test_rows_already_split_are_read_alike():
    """Cells may be numbers, and nothing where there is no reading."""
    rows = [
        ["When", "RH", "T"],
        ["2024-01-01 00:00", 50, 18.5],
        ("2024-01-01 01:00", None, 19),
        ["2024-01-01 02:00", "52,5", None],
    ]
    log = logger.read_rows(rows, COLUMNS | {"temperature": "T"})
    assert (hours(log), list(log.humidity_pct), log.empty) == ([0, 2], [50, 52.5], 1)
    assert log.temperature_c[0] == 18.5


@pytest.mark.parametrize(
    ("rows", "code", "field"),
    [
        ([], "missing", "rows"),
        ([["When"]], "missing", "columns.humidity"),
        ([[]], "missing", "columns.time"),
        ([["When", "RH"], "2024-01-01;50"], "unsuitable-shape", "rows row 2"),
        ([["When", "RH"], ["2024-01-01", "damp"]], "not-a-number", "rows row 2 humidity"),
        ([["When", "RH"], ["2024-01-01"]], "unsuitable-shape", "rows row 2 cells"),
        ([["When", "RH"]], "missing", "rows"),
    ],
)
def test_bad_rows_are_refused_by_row(rows, code, field):
    """Rows are counted with the header as the first."""
    with refused(code, field):
        logger.read_rows(rows, COLUMNS)


@given(
    st.lists(st.tuples(st.integers(0, 10**6), st.floats(0, 100)), min_size=1, max_size=40),
    st.sampled_from([",", ";", "\t"]),
)
def test_record_written_as_csv_reads_back(readings, delimiter):
    """What the standard writer writes is read back, whatever the numbers."""
    readings.sort(key=lambda reading: reading[0])
    out = io.StringIO()
    writer = csv.writer(out, delimiter=delimiter)
    writer.writerow(["When", "RH"])
    writer.writerows([datetime.fromtimestamp(NEW_YEAR_S + now, UTC).isoformat(), value] for now, value in readings)
    log = read(out.getvalue())
    assert list(log.seconds) == [NEW_YEAR_S + now for now, _ in readings]
    assert list(log.humidity_pct) == [value for _, value in readings]


@given(st.text(max_size=300))
def test_any_text_is_read_or_refused(text):
    """No file makes the reader fall over."""
    try:
        read("When;RH\n" + text)
    except logger.FieldbookError as error:
        assert error.remedy

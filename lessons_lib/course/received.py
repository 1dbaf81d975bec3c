"""When returns came and what being late costs: received.csv, extensions.csv, deadlines."""
import math
from datetime import datetime
from pathlib import PurePosixPath

from lessons_lib.base.words import did_you_mean
from lessons_lib.course.dates import NotADate, read_dates
from lessons_lib.course.returned import arrived, one_spelling
from lessons_lib.course.tables import (
    as_number,
    as_typed,
    csv_bytes,
    defused,
    lines_in,
    numbered_rows_of,
    refuse,
    saved_otherwise,
)
from lessons_lib.course.telling import some
from lessons_lib.course.zips import member_time
from lessons_lib.exercises.sheet_file import write_whole

PROPOSAL = "the file's own time (a proposal)"
_NEW_HEAD = ("file", "received", PROPOSAL)


def _check_columns(names):
    if not {"file", "received"} <= set(names):
        raise ValueError("received.csv has no columns file and received. Put these two words over its columns.")


def received_times(course):
    """Return file below ``returned`` -> when it was received, None where it has no time.

    They come from received.csv with the columns file and received; a line may also name a whole zip. Times are as
    `read_dates` reads them, those without a zone in that of this machine. An empty dict without the table.

    Raises
    ------
    ValueError
        Where lines cannot be used; the message has a sentence for each of them.
    """
    rows, times, faults = numbered_rows_of(course.folder / "received.csv"), {}, []
    if not rows:
        return {}
    _check_columns(rows[0][1])
    for (line, row), time in zip(rows, read_dates([row["received"] for _, row in rows])):
        file, text = _file(row), row["received"]
        if isinstance(time, NotADate):
            faults.append(f'received.csv, line {line}: "{text[:40]}" for "{file[:80]}" {time.reason}.')
        elif time and not file:
            faults.append(f"received.csv, line {line} has a time but no file.")
        elif time and (times.get(file) or time) != time:
            faults.append(f'received.csv, line {line}: "{file[:80]}" is there twice, with two times.')
        elif file:
            times[file] = time or times.get(file)
    refuse(faults)
    return times


def received_remarks(course, times, arrivals):
    """Return sentences on what received.csv and the folder ``returned`` do not have in common.

    *times* is what `received_times` gives, *arrivals* what `read_returned` gives; nothing is said without *times*.
    """
    if not times:
        return []
    without = [one.file for here in arrivals.values() for one in here if not one.received]
    unlisted = [file for file in without if one_spelling(file) not in times]
    untimed = [file for file in without if one_spelling(file) in times]
    there = {one_spelling(file) for here in arrivals.values() for one in here for file in _called(one)}
    # a line may name a file that does not count, or something in one that is there: a zip
    strange = [file for file in times if file not in there and not any(
        (course.folder / "returned" / part).is_file() for part in (file, *PurePosixPath(file).parents))]
    return [f"{words}: {some(files)}." for words, files in (
        ("Not in received.csv, so counted as in time", unlisted),
        ("Without a time in received.csv, so counted as in time", untimed),
        ("received.csv names what is not in the folder returned", strange)) if files]


def begin_received(course, *, own_times=False):
    """Add a line to received.csv for every return that has none, and change none of the others; return the new files.

    The new lines have no time yet. Beside them is the file's own time, in a column of its own; with *own_times* it is
    their time of receipt, too.

    Raises
    ------
    ValueError
        Where lines that are there cannot be used, as for `received_times`, or are in a file of another format.
    """
    with course.busy():
        refuse(saved_otherwise(course.folder, "received.csv"))      # what is written now would be the newer of the two
        times, (arrivals, _) = received_times(course), arrived(course)
        new = sorted((one.file, _own_time(one)) for here in arrivals.values() for one in here
                     if not times.keys() & set(map(one_spelling, _called(one))))
        if new:
            path = course.folder / "received.csv"
            data = path.read_bytes() if path.exists() else b""
            write_whole(path, _with_lines(data, new, own_times, ";" if course.settings.decimal_comma else ","))
    return [file for file, _ in new]


def take_own_times(course):
    """Take the file's own time over in each line of received.csv that has no time yet; return these files.

    What `begin_received` refuses is refused here, too.
    """
    with course.busy():
        refuse(saved_otherwise(course.folder, "received.csv"))
        times, path, found = received_times(course), course.folder / "received.csv", []
        separator, lines = lines_in(path.read_bytes() if path.exists() else b"", "received.csv")
        names = [name.strip().lower() for name in lines[0][1]] if lines else []
        for _, cells in lines[1:]:
            cells += [""] * (len(names) - len(cells))       # a spreadsheet drops empty cells at the end of a line
            row = dict(zip(names, map(str.strip, cells)))
            if row.get(PROPOSAL) and times.get(_file(row), ...) is None:
                cells[names.index("received")] = row[PROPOSAL]
                found.append(_file(row))
        if found:
            write_whole(path, csv_bytes(separator, [cells for _, cells in lines]))
    return found


def _file(row):
    return one_spelling(as_typed(row["file"]).replace("\\", "/").removeprefix("./").removeprefix("returned/"))


def _called(arrival):
    """What a line may call a return: its file, or the zip that it is in."""
    zipped = [arrival.zipped[0].relative_to(arrival.folder).as_posix()] if arrival.zipped else []
    return [arrival.file, *zipped]


def _own_time(arrival):
    if arrival.zipped:
        time = member_time(*arrival.zipped)
    else:
        time = datetime.fromtimestamp((arrival.folder / arrival.file).stat().st_mtime)
    return f"{time:%Y-%m-%d %H:%M}" if time else ""


def _with_lines(data, new, own_times, separator):
    """The bytes of the table with *new* lines at its end: cells that were there stay as they were typed."""
    known, lines = lines_in(data, "received.csv")
    head, *rows = [cells for _, cells in lines] or [list(_NEW_HEAD)]
    names = [name.strip().lower() for name in head]
    if PROPOSAL not in names:
        head, names = [*head, PROPOSAL], [*names, PROPOSAL]
    _check_columns(names)
    for file, time in new:
        cells = {"file": defused(file), "received": time if own_times else "", PROPOSAL: time}
        rows.append([cells.get(name, "") for name in names])
    return csv_bytes(known if lines else separator, [head, *rows])


def read_extensions(course):
    """Return (bench, lesson) -> days more; lesson None stands for every lesson.

    They come from ``[extensions]`` of course.toml and from the table extensions.csv with the columns bench, days and,
    where the extension is for one lesson alone, lesson. Several for one bench and lesson: the longest counts.

    Raises
    ------
    ValueError
        Where lines cannot be used; the message has a sentence for each of them.
    """
    faults, more = [], {(bench, None): days for bench, days in course.settings.extensions.items()}
    for line, row in numbered_rows_of(course.folder / "extensions.csv"):
        where = f"extensions.csv, line {line}"
        bench, typed, text = row.get("bench", "").lower(), row.get("lesson", ""), row.get("days", "")
        lesson, days = typed.zfill(2) if typed else None, as_number(text)
        if bench not in course.students:
            faults.append(f'{where}: "{bench[:20]}" is not in class_list.csv; write the bench in a column called '
                          f"bench.{did_you_mean(bench, course.students)}")
        elif lesson and lesson not in course.lessons:
            faults.append(f'{where}: there is no lesson "{typed[:20]}"; leave the cell empty for all lessons.')
        elif days is None or not 0 <= days < 1000:
            faults.append(f'{where}: "{text[:20]}" is not a number of days; write one such as 2, in a column called '
                          "days.")
        else:
            more[bench, lesson] = max(more.get((bench, lesson), 0), days)
        if not {"bench", "days"} <= row.keys():
            break       # all lines are wrong alike
    refuse(faults)
    return more


def _days_more(extensions, lesson, bench):
    return max(extensions.get((bench, lesson), 0), extensions.get((bench, None), 0))


def late_rule(settings, extensions, lesson, bench):
    """Return what lateness is reckoned by, as plain data: deadline, days more, per cent a day, at most, grace."""
    late, deadline = settings.late, settings.deadlines.get(lesson)
    return [deadline and deadline.isoformat(), _days_more(extensions, lesson, bench), late.percent_a_day, late.at_most,
            late.grace_hours]


def percent_off(settings, extensions, lesson, bench, received):
    """Return what lateness takes off a return that was *received* then, from 0 to 100 per cent.

    Days begun are counted from the deadline on, with its grace and the bench's extension.
    """
    deadline, late = settings.deadlines.get(lesson), settings.late
    if not (deadline and received):
        return 0.0
    after = (received - deadline.astimezone()).total_seconds() / 86400
    after -= late.grace_hours / 24 + _days_more(extensions, lesson, bench)
    return float(min(100, late.at_most, late.percent_a_day * max(0, math.ceil(after))))

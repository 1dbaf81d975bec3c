"""What being late costs: deadlines and grace of the settings, extensions of the settings and of extensions.csv."""
from lessons_lib.course.tables import numbered_rows


def read_extensions(course):
    """Return (bench, lesson) -> days more; lesson None stands for every lesson.

    They come from ``[extensions]`` of course.toml and from the table extensions.csv with the columns bench, days and,
    where the extension is for one lesson alone, lesson. Several for one bench and lesson: the longest counts.

    Raises
    ------
    ValueError
        Where a line cannot be used; the message is one sentence.
    """
    days = {(bench, None): more for bench, more in course.settings.extensions.items()}
    path = course.folder / "extensions.csv"
    for line, row in numbered_rows(path.read_bytes()) if path.exists() else ():
        where = f"extensions.csv, line {line}"
        key = _bench(course, row, where), _lesson(course, row, where)
        days[key] = max(days.get(key, 0), _days(row, where))
    return days


def _bench(course, row, where):
    bench = row.get("bench", "").lower()
    if bench not in course.students:
        raise ValueError(f'{where}: "{bench[:20]}" is not in class_list.csv; write the bench in a column called bench.')
    return bench


def _lesson(course, row, where):
    text = row.get("lesson", "")
    lesson = text.zfill(2) if text else None
    if lesson and lesson not in course.lessons:
        raise ValueError(f'{where}: there is no lesson "{text[:20]}"; leave the cell empty for all lessons.')
    return lesson


def _days(row, where):
    text = row.get("days", "")
    try:
        days = float(text.replace(",", "."))
    except ValueError:
        days = -1.0
    if not 0 <= days < 1000:
        raise ValueError(f'{where}: "{text[:20]}" is not a number of days; write one such as 2, in a column called '
                         "days.")
    return days


def days_late(settings, extensions, lesson, bench, received):
    """Return how many days, begun ones counted, a return came after its deadline, grace and extension."""
    deadline = settings.deadlines.get(lesson)
    if not (deadline and received):
        return 0
    after = (received - deadline.astimezone()).total_seconds() / 86400
    after -= settings.late.grace_hours / 24 + _more(extensions, lesson, bench)
    return max(0, int(-(-after // 1)))


def _more(extensions, lesson, bench):
    return max(extensions.get((bench, lesson), 0), extensions.get((bench, None), 0))


def late_rule(settings, extensions, lesson, bench):
    """Return what lateness is reckoned by, as plain data: deadline, days more, per cent a day, at most, grace."""
    late, deadline = settings.late, settings.deadlines.get(lesson)
    return [deadline and deadline.isoformat(), _more(extensions, lesson, bench), late.percent_a_day, late.at_most,
            late.grace_hours]


def percent_off(settings, extensions, lesson, bench, received):
    """Return what lateness takes off a return that was *received* then, from 0 to 100 per cent."""
    percent = settings.late.percent_a_day * days_late(settings, extensions, lesson, bench, received)
    return float(max(0, min(100, settings.late.at_most, percent)))

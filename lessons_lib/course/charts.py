"""Small charts for a page in print: lengths inside of one line, readable in grey, with their numbers in words."""
from html import escape

from lessons_lib.course.class_shares import LEAST_FOR_SHARES, standard_error

_WIDTH, _HEIGHT = 110, 14
_DARK, _MIDDLE = "#0072B2", "#8FC1E3"      # apart in grey, too: a quarter and three quarters of white


def tries_bar(first, right, n):
    """Return a bar of *n* benches: dark for right at first, lighter for right in the end, white for the others.

    A whisker shows one standard error of the share in the end, where there are enough benches for a share.
    """
    words = f"{first} right at first, {right} in the end, of {n}"
    parts = [_box(0, first / n, _DARK), _box(first / n, (right - first) / n, _MIDDLE)]
    if n >= LEAST_FOR_SHARES:
        parts.append(_whisker(right / n, standard_error(right, n)))
    return _picture(words, *parts)


def count_bar(count, n):
    """Return a bar of *count* out of *n*."""
    return _picture(f"{count} of {n}", _box(0, count / n if n else 0, _DARK))


def _picture(words, *parts):
    return (f'<svg class=bar role=img width={_WIDTH + 2} height={_HEIGHT} viewBox="-1 0 {_WIDTH + 2} {_HEIGHT}">'
            f"<title>{escape(words)}</title>{_box(0, 1, 'none')}{''.join(parts)}</svg>")


def _box(start, length, fill):
    return (f'<rect x="{_WIDTH * start:.1f}" y="2" width="{_WIDTH * length:.1f}" height="{_HEIGHT - 4}" fill="{fill}" '
            'stroke="#333" stroke-width="0.7"/>')


def _whisker(middle, reach):
    low, high = (_WIDTH * max(0.0, min(1.0, end)) for end in (middle - reach, middle + reach))
    y = _HEIGHT / 2
    return (f'<path d="M{low:.1f} {y}H{high:.1f}M{low:.1f} {y - 3}v6M{high:.1f} {y - 3}v6" stroke="#000" '
            'stroke-width="1.2" fill="none"/>')

"""What the tests ask of a declared exercise over many draws, each fault one sentence."""
from lessons_lib.exercises.draws import draw_once

LEAST_ACCEPTED = 0.2  # of all draws: with fewer, benches differ by luck and the ranges should be mended


def review(exercise, draws=300):
    """Yield the faults of an exercise, looking at so many accepted *draws*.

    Such as: too few draws accepted (with a reason met), a slip that is never told, an answer that the printed values do
    not lead to, a fuller model that would be marked wrong, a worked text that cannot be filled in.
    """
    yield from exercise.faults()
    if not exercise.is_drawn:
        return
    accepted, reason, tried = [], "", 0
    while len(accepted) < draws and tried < draws / LEAST_ACCEPTED:
        drawn = draw_once(exercise, secret="review", bench="b999", number=tried)
        why = exercise.why_refused(drawn)
        tried, reason = tried + 1, why or reason
        if not why:
            accepted.append(drawn)
    if len(accepted) < draws:
        yield f"{exercise.id}: only {len(accepted)} of {tried} draws are accepted; for one, {reason}."
    for drawn in accepted:
        yield from exercise.faults_of(drawn)

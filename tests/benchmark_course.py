"""How long marking takes and how much memory, for classes of several sizes, and whether a killed run harms.

python tests/benchmark_course.py                returns of all lessons: 200, 2000
python tests/benchmark_course.py 2000 20000     other numbers of returns
python tests/benchmark_course.py --kill         fifty runs killed at random moments, each followed by a whole one

Each size is marked in a process of its own; prints seconds, the peak of memory, and the growth from size to size.
"""
import argparse
import json
import os
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from invented_work import EventSheet, Worker
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.given_out import GivenOut
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.mark import mark


def make_returns(folder, count, ids=None):
    """A course with at least *count* returns, made from events without any notebook; the `Course`.

    They are over all lessons, or over those of the *ids*.
    """
    new_course(folder, 1)
    lessons = {lesson_id: lesson for lesson_id,
               lesson in Course(folder).lessons.items() if ids is None or lesson_id in ids}
    benches = [f"b{number:04d}" for number in range(1000, 1000 + -(-count // len(lessons)))]
    (folder / "class_list.csv").write_text("bench\n" + "\n".join(benches) + "\n")
    (folder / "secret.txt").write_text("a fixed secret of at least thirty-two characters\n")
    course = Course(folder)
    for lesson_id, lesson in lessons.items():
        given_out = GivenOut(course, lesson)
        for bench in benches:
            sheet = EventSheet(lesson, bench, bench_card(course.secret, bench), given_out.give(course.secret, bench))
            Worker(lesson, sheet, sheet.drawn, bench).whole()
            (folder / "returned" / bench).mkdir(exist_ok=True)
            (folder / "returned" / bench / f"return-{bench}-{lesson_id}.json").write_bytes(sheet.data())
        given_out.save()
    return course


def marked_in_a_process(folder):
    """Mark in a fresh process; return {"wall", "cpu", "peak"} in seconds and MB."""
    done = subprocess.run([sys.executable, __file__, "--mark", folder], capture_output=True, text=True, check=True)
    return json.loads(done.stdout.splitlines()[-1])


def mark_and_tell(folder):
    wall, cpu = time.perf_counter(), time.process_time()
    mark(Course(Path(folder)))
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(json.dumps({"wall": time.perf_counter() - wall, "cpu": time.process_time() - cpu, "peak": peak}))


def sizes(counts):
    """Print a line a size, and the growth between them."""
    before = None
    with tempfile.TemporaryDirectory() as home:
        for count in counts:
            folder = Path(home) / str(count)
            make_returns(folder, count)
            one = marked_in_a_process(folder)
            again = marked_in_a_process(folder)
            print(f"{count} returns: {one['wall']:.1f} s ({1000 * one['cpu'] / count:.1f} ms of processor a return), "
                  f"again {again['wall']:.1f} s, peak {one['peak']:.0f} MB")
            if before:
                more = count - before[0]
                print(f"  from {before[0]}: {(one['cpu'] - before[1]['cpu']) / more * 1000:.1f} ms and "
                      f"{(one['peak'] - before[1]['peak']) / more * 1000:.1f} kB a further return")
                per = (one["peak"] - before[1]["peak"]) / more
                print(f"  so 20000 would take {one['wall'] * 20000 / count:.0f} s and "
                      f"{one['peak'] + per * (20000 - count):.0f} MB")
            before = count, one
            shutil.rmtree(folder)


def outputs(folder):
    """Everything that marking wrote, the times of the history left out."""
    return {path.relative_to(folder): re.sub(rb'"time": "[^"]*"', b"", path.read_bytes())
            for path in (folder / "marks").rglob("*") if path.is_file()}


def killed(times):
    """Kill runs at random moments with a signal that nobody can catch; run again; compare with an undisturbed run."""
    dice, died = random.Random(7), 0
    with tempfile.TemporaryDirectory() as home:
        start = Path(home) / "start"
        make_returns(start, 120)
        undisturbed = Path(home) / "undisturbed"
        shutil.copytree(start, undisturbed)
        began = time.perf_counter()
        mark(Course(undisturbed))
        whole = time.perf_counter() - began
        for _ in range(times):
            folder = Path(home) / "killed"
            shutil.copytree(start, folder)
            child = os.fork()
            if not child:
                mark(Course(folder))
                os._exit(0)
            time.sleep(dice.uniform(0.3, 1.05) * whole)
            os.kill(child, signal.SIGKILL)
            died += os.waitpid(child, 0)[1] != 0
            mark(Course(folder))
            if outputs(folder) != outputs(undisturbed):
                raise SystemExit("A killed run left other marks.")
            shutil.rmtree(folder)
    print(f"{times} runs, {died} of them killed before their end: the same marks after the next run.")


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("counts", type=int, nargs="*", default=[200, 2000])
    parser.add_argument("--kill", action="store_true")
    parser.add_argument("--mark", metavar="FOLDER", help=argparse.SUPPRESS)
    arguments = parser.parse_args()
    if arguments.mark:
        mark_and_tell(arguments.mark)
    elif arguments.kill:
        killed(50)
    else:
        sizes(arguments.counts)


if __name__ == "__main__":
    main()

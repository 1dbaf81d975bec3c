"""The instructor's desk: the commands of `course` as a page with buttons, for who never opens a terminal."""
from lessons_lib.desk.whole import instructor_desk

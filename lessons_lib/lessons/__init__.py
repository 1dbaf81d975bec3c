"""One folder a lesson: its model, plain functions of numbers, and its panels; beside them the instrument they show."""

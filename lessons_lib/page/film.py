"""A loop of pictures of one setting: computed and sent once, then played by the page alone."""
from dataclasses import dataclass

MOST_LETTERS = 250_000      # of all pieces; more would make a page heavy


@dataclass(frozen=True, kw_only=True)
class Film:
    """Pictures of one period of a motion, the last of which leads to the first.

    Parameters
    ----------
    frames : sequence
        What the panel's draw takes, one a picture, 24 to 48 of them.
    seconds : float
        How long one round takes on the page.
    words : str
        How slow that is: "one period in 1.6 s instead of 5 ms".
    """

    frames: tuple
    seconds: float = 1.6
    words: str

    def described(self, drawing):
        """For the page: the different pieces of each artist, and which of them each frame shows.

        Raises
        ------
        ValueError
            If all pieces together are too much for a page.
        """
        slots, frames = [], []
        for data in self.frames:
            pieces = drawing.moving(data)
            slots += [{} for _ in range(len(pieces) - len(slots))]
            frames.append([slot.setdefault(piece, len(slot)) for slot, piece in zip(slots, pieces)])
        size = sum(len(piece) for slot in slots for piece in slot)
        if size > MOST_LETTERS:
            raise ValueError(f"a film must take {MOST_LETTERS} letters or less; got {size}.")
        return {"slots": [list(slot) for slot in slots], "frames": frames, "seconds": self.seconds,
                "words": self.words}

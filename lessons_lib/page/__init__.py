"""All that knows widgets on a page: panels, their sliders, pictures and cards, sound, cells."""

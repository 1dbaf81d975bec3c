"""Panels: sliders, figures with alternative text, predictions. Beside the desk the only floor that knows widgets."""

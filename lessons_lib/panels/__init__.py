"""Panels: sliders, figures with alternative text, predictions. The only floor that knows widgets."""

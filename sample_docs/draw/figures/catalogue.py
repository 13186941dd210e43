"""Every figure by the name that the content files use."""

from sample_docs.draw.figures import landing_gear, single, structure, systems

FIGURES = {**landing_gear.FIGURES, **systems.FIGURES, **structure.FIGURES, **single.FIGURES}

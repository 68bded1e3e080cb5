"""A hydro turbine."""

from diagrammer.kinds.wind import kind

KIND = kind("hydro", "A water turbine with its generator; it races when nothing loads it.")

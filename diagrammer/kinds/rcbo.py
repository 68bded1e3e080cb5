"""A residual-current device with overcurrent protection."""

from diagrammer.kinds.rcd import kind

KIND = kind("rcbo", "overcurrent", "Opens when current leaks to earth, and when it is too large.")

"""Fourth phase: blocks in millimetres. A block's origin is where the line that leads to it ends.

Before: a Tree and its Returns. After: each root's whole tree is one block; every vertex reached is
drawn in it once; every chain end is a line or a reference; no two boxes of a block overlap.
"""

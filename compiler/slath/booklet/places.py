"""What blocks name as places to lead to, and what they show."""

from __future__ import annotations

from slath.booklet.blocks import Block, Cover, Definitions, Figure, Heading, Paragraph, Step, Table


def figures_of(block: Block) -> tuple[Figure, ...]:
    """The figures of a block, itself if it is one."""
    if isinstance(block, Figure):
        return (block,)
    if isinstance(block, Step):
        return block.figures
    return (block.figure,) if isinstance(block, Cover) and block.figure else ()


def anchors_of(block: Block) -> list[str]:
    """The anchors of a block, of its entries and of its figures."""
    found: list[str] = []
    if isinstance(block, Heading | Paragraph | Step | Table):
        found.append(block.anchor)
    if isinstance(block, Definitions):
        found.extend(entry.anchor for entry in block.entries)
    found.extend(figure.anchor for figure in figures_of(block))
    return [anchor for anchor in found if anchor]

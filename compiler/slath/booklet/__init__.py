"""Content to pages: blocks, styles, lines, flow. No arithmetic of baskets and no geometry of figures."""

"""Writers: PDF, SVG, CSV, JSON and text; every file written whole or not at all."""

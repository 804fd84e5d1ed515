"""The bundled type: two families as static TrueType files, with their licences.

*Withy Serif* and *Withy Sans* are cut from Source Serif 4 and Source Sans 3 (SIL Open Font License 1.1) by
``.ci/derive_fonts.py`` and renamed, because the licence reserves the name of the originals. Beside each face stands a face of
fraction digits, so that any fraction is set from real numerators and denominators without shaping.
"""

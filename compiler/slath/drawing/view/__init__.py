"""The finished basket in space: floor, side, uprights, border, handles, lid and foot."""

"""The pattern language: YAML read with places, validated, and resolved for every size into a frozen pattern."""

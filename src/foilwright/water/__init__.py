"""Water and what it does: sections, foils, struts, hull, waves."""

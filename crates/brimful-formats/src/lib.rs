//! Writers for PDF, DXF, STEP, glTF and CSV.

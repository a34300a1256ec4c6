//! Pure functions from design and plan to bytes: drawing, sheet, solids, reports.

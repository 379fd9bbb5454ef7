//! Plates for the cutting table.

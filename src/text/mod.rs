//! text

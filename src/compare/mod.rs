//! compare

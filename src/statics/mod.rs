//! statics

//! Nothing is lost: the real binary killed at every call that changes the disk, refused room on it, and run
//! many times at once in one folder.
//!
//! A small library is loaded in front of the C library (`preload.c`). Without a C compiler these tests are
//! left out with a note; where `LONGPOINT_CC` is set (continuous integration) its absence is a failure.

#![cfg(target_os = "linux")]

mod every_call;
mod full_disk;
mod race;
mod world;

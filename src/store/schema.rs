//! The form of the database, and what marks it as ours.

/// `application_id`: "LPYD".
pub(super) const APPLICATION: i64 = 0x4c50_5944;
/// `user_version`: the form of the tables.
pub(super) const VERSION: i64 = 1;

/// Tables and the triggers that keep them append-only.
///
/// `undoing` marks entries that undo others, so that these can be read alone before a fold. `hash` chains each
/// entry to all before it: 64-bit FNV-1a over the hash before and the line.
pub(super) const TABLES: &str = "
CREATE TABLE entries (
  number INTEGER PRIMARY KEY CHECK (number > 0),
  id TEXT NOT NULL UNIQUE,
  undoing INTEGER NOT NULL CHECK (undoing IN (0, 1)),
  line TEXT NOT NULL,
  hash INTEGER NOT NULL
) STRICT;
CREATE INDEX undoings ON entries (number) WHERE undoing = 1;
CREATE TABLE plans (
  entry TEXT PRIMARY KEY REFERENCES entries (id) DEFERRABLE INITIALLY DEFERRED,
  document BLOB NOT NULL
) STRICT;
CREATE TABLE files (
  entry TEXT NOT NULL REFERENCES plans (entry) DEFERRABLE INITIALLY DEFERRED,
  name TEXT NOT NULL,
  bytes BLOB NOT NULL,
  PRIMARY KEY (entry, name)
) STRICT;
CREATE TABLE cache (
  one INTEGER PRIMARY KEY CHECK (one = 1),
  number INTEGER NOT NULL,
  hash INTEGER NOT NULL,
  program TEXT NOT NULL,
  stand BLOB NOT NULL
) STRICT;
CREATE TRIGGER entries_stay BEFORE UPDATE ON entries
  BEGIN SELECT RAISE(ABORT, 'an entry is never changed'); END;
CREATE TRIGGER entries_are_kept BEFORE DELETE ON entries
  BEGIN SELECT RAISE(ABORT, 'an entry is never deleted'); END;
CREATE TRIGGER entries_go_on BEFORE INSERT ON entries
  WHEN NEW.number <> (SELECT COALESCE(MAX(number), 0) + 1 FROM entries)
  BEGIN SELECT RAISE(ABORT, 'entries are numbered one by one'); END;
CREATE TRIGGER plans_stay BEFORE UPDATE ON plans
  BEGIN SELECT RAISE(ABORT, 'an issued plan is never changed'); END;
CREATE TRIGGER plans_are_kept BEFORE DELETE ON plans
  BEGIN SELECT RAISE(ABORT, 'an issued plan is never deleted'); END;
CREATE TRIGGER files_stay BEFORE UPDATE ON files
  BEGIN SELECT RAISE(ABORT, 'a file of an issued plan is never changed'); END;
CREATE TRIGGER files_are_kept BEFORE DELETE ON files
  BEGIN SELECT RAISE(ABORT, 'a file of an issued plan is never deleted'); END;
";

/// What every connection asks for. A file system that cannot do it answers otherwise, and that is asked too.
pub(super) const SETTINGS: &str = "
PRAGMA journal_mode = DELETE;
PRAGMA synchronous = EXTRA;
PRAGMA foreign_keys = ON;
PRAGMA recursive_triggers = ON;
PRAGMA trusted_schema = OFF;
PRAGMA cell_size_check = ON;
";

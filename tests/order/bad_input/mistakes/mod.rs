//! A table of mistakes that purchasers and drafters make, each a test of its own: what is said, of which value,
//! where, with what mend. The mistakes are from memory of such lists; common practice, no source.
//!
//! A row makes one mistake in an otherwise sound week and demands that just this is said: one error, or one
//! warning or note and no error.

mod codes;
mod dates;
mod lists;
mod names;
mod prices;
mod settings;
mod sizes;
mod terms;

use crate::bad_input::world::{Files, read, sound};
use longpoint::measure::FaultCode;
use longpoint::order::{Fault, Severity, print_faults};

/// What must be said of a mistake.
pub struct Said {
    pub severity: Severity,
    pub code: FaultCode,
    pub file: &'static str,
    /// Line; 0: the whole file.
    pub line: u32,
    /// Column or key; empty: none.
    pub column: &'static str,
    pub value: &'static str,
    /// Words of what is wrong.
    pub what: &'static str,
    /// Words of how to mend it.
    pub mend: &'static str,
}

/// Demands that just this is said of these files.
#[track_caller]
pub fn demand(files: &Files, said: &Said) {
    let all = match read(files) {
        Ok(week) => week.notices,
        Err(faults) => faults,
    };
    let shown = print_faults(&all);
    let louder = |f: &&Fault| f.severity <= Severity::Warning || said.severity == Severity::Note;
    let told: Vec<&Fault> = all.iter().filter(louder).collect();
    assert_eq!(told.len(), 1, "one mistake, one message:\n{shown}");
    let fault = told[0];
    assert_eq!(fault.code, said.code, "{shown}");
    assert_eq!(fault.severity, said.severity, "{shown}");
    assert_eq!(fault.file, said.file, "{shown}");
    assert_eq!(fault.line.unwrap_or(0), said.line, "{shown}");
    assert_eq!(
        fault.column.as_deref().unwrap_or(""),
        said.column,
        "{shown}"
    );
    assert_eq!(fault.value.as_deref().unwrap_or(""), said.value, "{shown}");
    assert!(
        fault.what.contains(said.what),
        "{:?} in\n{shown}",
        said.what
    );
    assert!(
        fault.mend.contains(said.mend),
        "{:?} in\n{shown}",
        said.mend
    );
}

/// One test a row: `name: files => severity code, file line column, value, what, mend`.
macro_rules! mistakes {
    ($($name:ident: $files:expr => $severity:ident $code:ident, $file:literal $line:literal $column:literal,
        $value:literal, $what:literal, $mend:literal;)*) => {
        $(#[test]
        fn $name() {
            $crate::bad_input::mistakes::demand(&$files, &$crate::bad_input::mistakes::Said {
                severity: longpoint::order::Severity::$severity,
                code: longpoint::measure::FaultCode::$code,
                file: $file,
                line: $line,
                column: $column,
                value: $value,
                what: $what,
                mend: $mend,
            });
        })*

        /// The kinds of fault that these rows show.
        pub const SHOWN: &[longpoint::measure::FaultCode] =
            &[$(longpoint::measure::FaultCode::$code),*];
    };
}
pub(crate) use mistakes;

/// orders.csv of these lines.
pub fn orders(text: &str) -> Files {
    Files {
        orders: Some(text.as_bytes().to_vec()),
        ..sound()
    }
}

/// A gate with one more column.
pub fn gate(column: &str, cell: &str) -> Files {
    orders(&format!(
        "mark,count,opening,height,hand,{column}\nA1,1,12',6',left,{cell}\n"
    ))
}

/// stock.csv of these lines.
pub fn stock(text: &str) -> Files {
    Files {
        stock: Some(text.as_bytes().to_vec()),
        ..sound()
    }
}

/// suppliers.csv of these lines, for the quotes of one supplier.
pub fn suppliers(text: &str) -> Files {
    Files {
        suppliers: Some(text.as_bytes().to_vec()),
        ..stock(
            "pipe,supplier,length,price,per\nH,Harbor Pipe,21 ft,3.48,foot\nV,Harbor Pipe,21 ft,2.62,foot\n",
        )
    }
}

/// rack.csv of these lines.
pub fn rack(text: &str) -> Files {
    Files {
        rack: Some(text.as_bytes().to_vec()),
        ..sound()
    }
}

/// parts.csv of these lines.
pub fn parts(text: &str) -> Files {
    Files {
        parts: Some(text.as_bytes().to_vec()),
        ..sound()
    }
}

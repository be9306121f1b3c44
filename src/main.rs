//! Arguments in, exit code out.

use std::io;
use std::process::ExitCode;

use longpoint::cli::{Voice, run};

fn main() -> ExitCode {
    let mut voice = Voice {
        out: &mut io::stdout(),
        err: &mut io::stderr(),
    };
    ExitCode::from(run(std::env::args_os(), &mut voice))
}

//! The argument table of what is told: issue, tell, stand, yard.

use std::path::PathBuf;

use clap::Subcommand;

/// Arguments of `tell`.
#[derive(Debug, clap::Args)]
pub(super) struct TellArguments {
    /// Folder of the week.
    pub folder: PathBuf,
    /// What happened: ordered, delivered, short, bent, refused, cut, spoiled, tagged, measured, counted,
    /// scrapped, welded, coped, done, shipped, changed, withdrawn, promised, cancelled, returned, accepted,
    /// reserved, freed, recut, closed or undone.
    pub what: Option<String>,
    /// To what: joints (1-15 28), pieces (A2-D), tags (K3), gates (A1.2), counts (14 of 20), entries (12).
    pub words: Vec<String>,
    /// Tell what a list says: columns what, joint, piece, length, count, note.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["what", "words"])]
    pub file: Option<PathBuf>,
    /// Write what a list says without asking.
    #[arg(long)]
    pub yes: bool,
    /// Keep what does not agree with what was told before as a question, in place of refusing it.
    #[arg(long)]
    pub hold: bool,
    /// Line of the order.
    #[arg(long, value_name = "N")]
    pub line: Option<String>,
    /// Joint.
    #[arg(long, value_name = "N")]
    pub joint: Option<String>,
    /// Cut up to this piece: its mark, or its number from the tape end.
    #[arg(long, value_name = "PIECE")]
    pub to: Option<String>,
    /// A piece as measured; may be given several times.
    #[arg(long, value_name = "PIECE=LENGTH", allow_hyphen_values = true)]
    pub actual: Vec<String>,
    /// What is left of a spoiled piece or a bent joint.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub left: Option<String>,
    /// A length; of a delivery once for every joint that was measured.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub length: Vec<String>,
    /// What lies on the floor after the last cut, as measured.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub floor: Option<String>,
    /// Length of the joint that was taken, as measured.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub taken: Option<String>,
    /// Tag painted on what is left.
    #[arg(long, value_name = "TAG")]
    pub tag: Option<String>,
    /// The tag it had before.
    #[arg(long, value_name = "TAG")]
    pub was: Option<String>,
    /// Pipe, by its trade name.
    #[arg(long, value_name = "PIPE")]
    pub pipe: Option<String>,
    /// How many.
    #[arg(long, value_name = "N")]
    pub count: Option<String>,
    /// Day it comes, such as 2026-03-06.
    #[arg(long, value_name = "DAY")]
    pub by: Option<String>,
    /// It does not come at all.
    #[arg(long)]
    pub not_coming: bool,
    /// Money of the order, or money back.
    #[arg(long, value_name = "AMOUNT")]
    pub money: Option<String>,
    /// Supplier.
    #[arg(long, value_name = "NAME")]
    pub supplier: Option<String>,
    /// The whole plan is withdrawn.
    #[arg(long)]
    pub plan: bool,
    /// A note.
    #[arg(long, default_value = "")]
    pub note: String,
    /// Who tells it; the name you are logged in under when not given.
    #[arg(long, value_name = "NAME")]
    pub who: Option<String>,
    /// Name of what is told: telling it twice under one name changes nothing.
    #[arg(long, value_name = "ID")]
    pub id: Option<String>,
}

/// Arguments of `stand`.
#[derive(Debug, clap::Args)]
pub(super) struct StandArguments {
    /// Folder of the week, or of the shop.
    pub folder: PathBuf,
    /// Ask whether all pipe is accounted for, to the tick.
    #[arg(long)]
    pub check: bool,
    /// Print one JSON document on stdout and nothing else there.
    #[arg(long)]
    pub json: bool,
}

/// What can be done with a shop's yard.
#[derive(Debug, Subcommand)]
pub(super) enum YardCommand {
    /// List what was told, with the numbers of the entries.
    Entries {
        /// Folder of the shop or of a week.
        shop: PathBuf,
    },
    /// Write every entry and every issued plan as lines of JSON, on stdout or into a file.
    Export {
        /// Folder of the shop.
        shop: PathBuf,
        /// File to make.
        #[arg(long, value_name = "FILE")]
        out: Option<PathBuf>,
    },
    /// Make a shop's yard from such lines.
    Import {
        /// Folder of the shop; its yard must be empty.
        shop: PathBuf,
        /// The lines.
        file: PathBuf,
    },
    /// Copy the database, whole, whatever is told meanwhile.
    Copy {
        /// Folder of the shop.
        shop: PathBuf,
        /// File to make.
        file: PathBuf,
    },
}

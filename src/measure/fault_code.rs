//! `FaultCode`: the kind of a fault, one word that a program can tell faults apart by.

use serde::Serialize;

/// The kind of a fault. Words of a message may be bettered; these stay.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum FaultCode {
    /// A file that the work needs is not in the folder.
    FileMissing,
    /// A file that is no list, no settings or no document as it stands: its characters, headings, brackets or size.
    FileUnreadable,
    /// A file that stands in the folder and is not read, or two that could both be meant.
    FileNotRead,
    /// A file that was read all the same, and is worth a look: hidden rows, doubtful characters.
    ReadWithCare,
    /// A column that the list needs is not there.
    ColumnMissing,
    /// A heading, setting or field that is not one of ours.
    HeadingUnknown,
    /// A cell that belongs to no row or column of the list.
    CellAstray,
    /// A row that is not taken as work: totals.
    RowLeftOut,
    /// A list without rows, or a row that counts 0.
    NothingToDo,
    /// A value that is needed and not given.
    ValueMissing,
    /// A text that is not of the kind that is wanted: no length, number, date, word.
    ValueUnreadable,
    /// A text that two people would read differently.
    ValueAmbiguous,
    /// A cell of a workbook whose formula has no result.
    FormulaWithoutValue,
    /// A value that cannot be meant, or cannot be used.
    ValueOutOfRange,
    /// A value that can be meant and is far from what is usual.
    ValueUnusual,
    /// Two values of which one must be wrong, or something told that does not fit what is known.
    ValuesDisagree,
    /// A mark, name, row or setting that is there twice.
    GivenTwice,
    /// Two marks or names that are easily taken for each other, or were taken as one.
    NamesAlike,
    /// A pipe, finish, supplier or other name that nothing declares.
    NameUnknown,
    /// A day that lies before the day of the order.
    DatePassed,
    /// Common practice is otherwise, or an engineer is asked for.
    Caution,
    /// Work that cannot be done as ordered, or was left out.
    WorkImpossible,
}

impl FaultCode {
    /// Every kind there is.
    pub const ALL: [FaultCode; 22] = [
        FaultCode::FileMissing,
        FaultCode::FileUnreadable,
        FaultCode::FileNotRead,
        FaultCode::ReadWithCare,
        FaultCode::ColumnMissing,
        FaultCode::HeadingUnknown,
        FaultCode::CellAstray,
        FaultCode::RowLeftOut,
        FaultCode::NothingToDo,
        FaultCode::ValueMissing,
        FaultCode::ValueUnreadable,
        FaultCode::ValueAmbiguous,
        FaultCode::FormulaWithoutValue,
        FaultCode::ValueOutOfRange,
        FaultCode::ValueUnusual,
        FaultCode::ValuesDisagree,
        FaultCode::GivenTwice,
        FaultCode::NamesAlike,
        FaultCode::NameUnknown,
        FaultCode::DatePassed,
        FaultCode::Caution,
        FaultCode::WorkImpossible,
    ];
}

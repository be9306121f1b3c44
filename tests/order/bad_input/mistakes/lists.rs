//! Lists as they come out of spreadsheets: totals, remarks, stray cells, headings twice, dates that were lengths.

use super::{gate, mistakes, orders, parts, stock};

mistakes! {
    a_row_of_totals: orders("mark,count,opening,height,hand\nA1,1,12',6',left\nTotal,1,,,\n") =>
        Warning RowLeftOut, "orders.csv" 3 "mark", "Total", "a row of totals: it is left out", "take the row away";
    a_total_alone: orders("mark,count,opening,height,hand\nA1,1,12',6',left\n,14,,,\n") =>
        Error CellAstray, "orders.csv" 3 "count", "14", "mark, opening and height are empty", "take it away";
    a_remark_below_the_list: orders("mark,count,opening,height,hand\nA1,1,12',6',left\nall gates galvanized,,,,\n") =>
        Error CellAstray, "orders.csv" 3 "mark", "all gates galvanized", "nothing but this cell", "belongs outside the list";
    a_cell_typed_beside_the_list: orders("mark,count,opening,height,hand\nA1,1,12',6',left,,,call first\n") =>
        Error CellAstray, "orders.csv" 2 "", "call first", "to the right of the last named column", "name the column";
    a_comma_in_a_cell: stock("pipe,length,price,per,note\nH,21 ft,3.48,foot,pickup, no dock\nV,21 ft,2.62,foot,\n") =>
        Error CellAstray, "stock.csv" 2 "", "no dock", "more cells than the header", "in quotation marks";
    commas_in_many_cells:
        stock("pipe,length,price,per,note\nH,21 ft,3.48,foot,a,b\nV,21 ft,2.62,foot,c,d\nV,24 ft,2.62,foot,e,f\n") =>
        Error CellAstray, "stock.csv" 2 "", "b", "(also in lines 3, 4)", "in quotation marks";
    the_headings_twice: parts("mark,pipe,length,count\nP1,H,5',1\nmark,pipe,length,count\nP2,H,5',1\n") =>
        Error FileUnreadable, "parts.csv" 3 "", "", "a second time", "take this row away";
    a_second_list_below: parts("mark,pipe,length,count\nP1,H,5',1\nmark,length,height\nB1,9',6'\n") =>
        Error FileUnreadable, "parts.csv" 3 "", "", "other headings stand here", "one list in a file";
    a_quotation_mark_left_open: orders("mark,count,opening,height,hand,note\nA1,1,12',6',left,\"see plan\n") =>
        Error FileUnreadable, "orders.csv" 2 "", "", "never closed", "close it";
    a_length_made_a_date: gate("overlap", "2026-05-16") =>
        Error ValueUnreadable, "orders.csv" 2 "overlap", "2026-05-16", "this is a date", "text format";
    a_due_date_of_two_readings: gate("due", "3/4/2026") =>
        Error ValueAmbiguous, "orders.csv" 2 "due", "3/4/2026", "month first or day first", "2026-03-04 or 2026-04-03";
    a_due_date_that_is_no_day: gate("due", "2026-02-30") =>
        Error ValueUnreadable, "orders.csv" 2 "due", "2026-02-30", "not a day of the calendar", "a real date";
    a_column_there_twice: orders("mark,count,qty,opening,height,hand\nA1,1,1,12',6',left\n") =>
        Error GivenTwice, "orders.csv" 1 "qty", "", "there twice", "take one of them away";
    a_column_left_out: orders("mark,count,opening,hand\nA1,1,12',left\n") =>
        Error ColumnMissing, "orders.csv" 1 "height", "", "the column height is missing", "add a column";
    a_hand_of_neither: orders("mark,count,opening,height,hand\nA1,1,12',6',middle\n") =>
        Error ValueUnreadable, "orders.csv" 2 "hand", "middle", "no hand", "write left or right";
}

//! What a PDF of ours says when an outside reader (poppler) takes its text out.

use crate::poppler;
use longpoint::report::draw::{Item, Page, Text};
use longpoint::report::pdf;

#[test]
fn every_script_comes_back_as_it_was_written() {
    let lines = [
        "A3.1-HB/2  5'-8 3/16\"  running 12'-0\"",
        "½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ 6′-2″ 45° ±1",
        "Łódź Ærø Ñandú Tiếng Việt",
        "Ворота на север",
        "Κήπος",
        "北京大门 東京ゲート 서울 대문",
    ];
    let mut items: Vec<Item> = Vec::new();
    let mut y = 40.0;
    for (i, line) in lines.iter().enumerate() {
        items.push(Item::Text(Text::new(20.0, y, 14.0, *line)));
        items.push(Item::Text(
            Text::new(580.0, y, 14.0, format!("{i}!")).bold().end(),
        ));
        y += 30.0;
    }
    let page = Page {
        width: 612.0,
        height: 396.0,
        title: String::from("scripts"),
        items,
    };
    let Some(text) = poppler::text_of(&pdf::file(&[page], "scripts")) else {
        return;
    };
    for (i, line) in lines.iter().enumerate() {
        for word in line.split_whitespace() {
            assert!(text.contains(word), "{word} not in\n{text}");
        }
        assert!(text.contains(&format!("{i}!")));
    }
}

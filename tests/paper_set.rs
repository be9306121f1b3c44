//! The drawn set of the demo weeks.

mod made;

use longpoint::report::paper::{Paper, elevations, set};

#[test]
fn the_demo_week_is_drawn_and_the_same_bytes_twice() {
    let plan = made::checked(&made::demo("demo_us"));
    let started = std::time::Instant::now();
    let bytes = set(&plan, Paper::Letter);
    eprintln!("{} bytes in {:?}", bytes.len(), started.elapsed());
    assert_eq!(bytes, set(&plan, Paper::Letter));
    if let Some(folder) = std::env::var_os("LONGPOINT_PAPER_OUT") {
        let folder = std::path::Path::new(&folder);
        std::fs::write(folder.join("us.pdf"), &bytes).expect("written");
        std::fs::write(folder.join("us_a4.pdf"), set(&plan, Paper::A4)).expect("written");
        for (name, svg) in elevations(&plan) {
            std::fs::write(folder.join(name), svg).expect("written");
        }
    }
}

//! What shop.toml can get wrong.

use super::world::{Files, SHOP, demand, line_of, notices, only_error, shop_with, sound};

#[test]
fn settings_are_judged() {
    let cases = [
        ("saw", "kerf = -0.1", "-0.1", "below zero"),
        ("saw", "kerf = \"1 1/8 in\"", "1 1/8 in", "over an inch"),
        ("saw", "kerf = nan", "nan", "not a length"),
        ("saw", "far_trim = 0.05", "0.05", "between 0 and the kerf"),
        ("saw", "mark = 0", "0", "over zero"),
        ("saw", "saws = 1.5", "1.5", "whole number"),
        ("saw", "kref = 0.1", "0.1", "not a setting of [saw]"),
        ("gate", "bay_limit = 0", "0", "over zero"),
        ("gate", "tail_fraction = -1", "-1", "must lie from"),
        ("gate", "lean = \"left\"", "left", "none of the words"),
        (
            "gate",
            "diagonal_cut = \"saddle\"",
            "saddle",
            "none of the words",
        ),
        (
            "gate",
            "height_means = \"grade\"",
            "grade",
            "clearance is not given",
        ),
        (
            "gate",
            "height_means = \"fabric\"",
            "fabric",
            "difference is not given",
        ),
        ("gate", "barbed_risers = true", "true", "roller on top"),
        ("gate", "clearance = \"5-8\"", "5-8", "two ways"),
        ("gate", "stop_rise = [4]", "[4]", "one value"),
        ("money", "credit_rate = 2", "2", "must lie from"),
        ("money", "keep_length = -3", "-3", "over zero"),
        ("splice", "root_gap = -1", "-1", "below zero"),
        ("splice", "most_extra = 3", "3", "never needed"),
        ("splice", "most_extra = -1", "-1", "below zero"),
        ("splice", "class_charge = 0.005", "0.005", "whole cents"),
        (
            "kit",
            "local_joints = \"21 ft\"",
            "21 ft",
            "a list is wanted",
        ),
        ("sway", "pipe = \"Q\"", "Q", "not declared"),
    ];
    for (section, line, value, what) in cases {
        let files = shop_with(section, line);
        let key = format!("{section}.{}", line.split(' ').next().unwrap_or(""));
        let fault = only_error(&files);
        demand(
            &fault,
            ("shop.toml", line_of(&files, line), &key),
            value,
            what,
        );
    }
    let typo = only_error(&shop_with("saw", "kref = 0.1"));
    assert!(typo.mend.contains("did you mean \"kerf\"?"), "{typo:?}");
    let no_cost = Files {
        shop: Some(SHOP.replace("cost = 40\n", "").into_bytes()),
        ..sound()
    };
    assert!(only_error(&no_cost).what.contains("money per splice"));
    let no_units = Files {
        shop: Some(SHOP.replace("units = \"inch\"\n", "").into_bytes()),
        ..sound()
    };
    assert_eq!(only_error(&no_units).column.as_deref(), Some("units"));
    let twice = only_error(&shop_with("saw", "mark = 1\nmark = 2"));
    assert!(twice.what.contains("duplicate"), "{twice:?}");
    assert!(twice.mend.contains("take one of the two away"), "{twice:?}");
    let broken = only_error(&shop_with("saw", "kerf = 10'-6\""));
    assert_eq!(
        broken.line,
        Some(line_of(
            &shop_with("saw", "kerf = 10'-6\""),
            "kerf = 10'-6\""
        ))
    );
}

#[test]
fn pipes_are_judged() {
    let pipe = |text: &str| Files {
        shop: Some(format!("{SHOP}[[pipe]]\n{text}\n").into_bytes()),
        ..sound()
    };
    let line = SHOP.lines().count() as u32 + 2;
    let two_walls = only_error(&pipe("name = \"h\"\nod = 2.375\nwall = 0.130"));
    demand(
        &two_walls,
        ("shop.toml", line, "pipe.name"),
        "h",
        "two walls",
    );
    let thick = only_error(&pipe("name = \"X\"\nod = 2\nwall = 1"));
    demand(
        &thick,
        ("shop.toml", line + 2, "pipe.wall"),
        "1",
        "half the OD",
    );
    let same = only_error(&pipe("name = \"X\"\nod = \"2.375 in\"\nwall = 0.154"));
    demand(
        &same,
        ("shop.toml", line, "pipe.name"),
        "X",
        "the same pipe as \"H\"",
    );
    let none = only_error(&pipe("name = \"X\"\nod = 2.375"));
    assert!(none.what.contains("no wall"), "{none:?}");
    let zero = only_error(&pipe("name = \"X\"\nod = 0\nwall = 0.1"));
    demand(&zero, ("shop.toml", line + 1, "pipe.od"), "0", "over zero");
    let named = notices(&pipe("name = \"X\"\nod = 2.000\nwall = 0.145"));
    demand(
        &named[0],
        ("shop.toml", line + 1, "pipe.od"),
        "2.000",
        "trade name",
    );
    let faulty_name_is_known = only_error(&Files {
        shop: Some(SHOP.replace("wall = 0.154", "wall = 2").into_bytes()),
        ..sound()
    });
    assert!(faulty_name_is_known.what.contains("half the OD"));
}

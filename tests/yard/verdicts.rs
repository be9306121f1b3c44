//! What is taken, held, refused: worked by hand on the small plan. Figures: arithmetic on the plan itself.

use longpoint::measure::Length;
use longpoint::order::RemnantId;
use longpoint::yard::{
    Accepted, Account, Bent, Comes, Cut, Delivered, Desk, Entry, EntryId, GateCopy, Measured,
    MeasuredWhat, PieceState, Short, Spoiled, Stand, Told, Verdict, Welded, Withdrawn, breaches,
};

use crate::world::{KERF, QUARTER, entry, inches, piece, small, taken};

static NOTHING: Vec<Entry> = Vec::new();

fn desk() -> Desk<'static, Vec<Entry>> {
    let mut desk = Desk::open(&NOTHING).expect("nothing reads");
    taken(&mut desk, "issue", Told::Issued(Box::new(small())));
    desk
}

fn cut(joint: u32) -> Told {
    Told::Cut(Cut {
        joint,
        to: None,
        lengths: Vec::new(),
        taken: None,
        floor: None,
    })
}

fn delivered(joints: u32) -> Told {
    Told::Delivered(Delivered {
        line: 1,
        joints,
        lengths: Vec::new(),
    })
}

fn balance(stand: &Stand, account: Account) -> Length {
    let pipe = stand.pipes.values().next().expect("one pipe");
    pipe.accounts.of(account)
}

fn verdict(desk: &mut Desk<'_, Vec<Entry>>, id: &str, told: Told, hold: bool) -> Verdict {
    let verdict = desk
        .tell(entry(id, "week-1", told), hold)
        .expect("readable");
    assert_eq!(breaches(desk.stand()), []);
    verdict
}

#[test]
fn a_joint_cut_moves_its_pipe_kerf_by_kerf() {
    let mut desk = desk();
    assert_eq!(balance(desk.stand(), Account::OnSite), inches(100));
    taken(&mut desk, "d", delivered(3));
    assert_eq!(balance(desk.stand(), Account::Mill), -inches(756));
    taken(&mut desk, "c1", cut(1));
    let stand = desk.stand();
    assert_eq!(balance(stand, Account::Pieces), inches(210));
    assert_eq!(balance(stand, Account::Kerf), KERF * 2);
    assert_eq!(balance(stand, Account::Trim), QUARTER);
    // 252 - 1/4 - 150 - 60 - 2 x 7/64 is kept as K1.
    let floor = inches(252) - QUARTER - inches(210) - KERF * 2;
    let id = RemnantId {
        week: "week-1".to_owned(),
        tag: "K1".to_owned(),
    };
    assert_eq!(stand.rack[&id].length, floor);
    assert_eq!(balance(stand, Account::OnSite), inches(100 + 504) + floor);
    assert_eq!(breaches(stand), []);
}

#[test]
fn a_begun_joint_lies_at_the_saw_until_it_is_finished() {
    let mut desk = desk();
    taken(&mut desk, "d", delivered(3));
    let part = |to| {
        Told::Cut(Cut {
            joint: 2,
            to,
            lengths: Vec::new(),
            taken: None,
            floor: None,
        })
    };
    taken(&mut desk, "c", part(Some(1)));
    let rest = inches(252 - 140) - QUARTER - KERF;
    assert_eq!(balance(desk.stand(), Account::AtSaw), rest);
    let longer = Told::Measured(Measured {
        what: MeasuredWhat::Joint(2),
        length: rest - QUARTER,
    });
    taken(&mut desk, "m", longer);
    assert_eq!(balance(desk.stand(), Account::Difference), QUARTER);
    taken(&mut desk, "c2", part(None));
    let scrap = rest - QUARTER - inches(100) - KERF * 2;
    assert_eq!(balance(desk.stand(), Account::Scrap), scrap);
    assert_eq!(balance(desk.stand(), Account::AtSaw), Length::ZERO);
    assert_eq!(breaches(desk.stand()), []);
}

#[test]
fn a_cut_before_its_pipe_is_a_question_until_somebody_answers() {
    let mut desk = desk();
    let asked = verdict(&mut desk, "c", cut(1), false);
    let Verdict::Asked(why) = asked else {
        panic!("{asked:?}");
    };
    assert!(why.what().contains("line 1") && why.mend().contains("delivered"));
    assert!(matches!(
        verdict(&mut desk, "c", cut(1), true),
        Verdict::Held(2, _)
    ));
    assert_eq!(balance(desk.stand(), Account::Pieces), Length::ZERO);
    taken(&mut desk, "d", delivered(1));
    // The delivery alone answers nothing.
    assert_eq!(balance(desk.stand(), Account::Pieces), Length::ZERO);
    let yes = Told::Accepted(Accepted::Entry(EntryId("c".to_owned())));
    taken(&mut desk, "yes", yes);
    assert_eq!(balance(desk.stand(), Account::Pieces), inches(210));
    assert!(desk.stand().questions.is_empty());
}

#[test]
fn telling_twice_changes_nothing_and_one_id_says_one_thing() {
    let mut desk = desk();
    taken(&mut desk, "d", delivered(2));
    let before = desk.stand().clone();
    assert_eq!(
        verdict(&mut desk, "d", delivered(2), true),
        Verdict::Again(2)
    );
    let other = verdict(&mut desk, "d", delivered(1), true);
    assert!(matches!(other, Verdict::Refused(_)), "{other:?}");
    assert_eq!(*desk.stand(), before);
    let twice = verdict(&mut desk, "d2", delivered(2), true);
    assert!(
        matches!(twice, Verdict::Held(3, _)),
        "one is still to come: {twice:?}"
    );
}

#[test]
fn a_joint_cut_twice_and_a_scrapped_remnant_cut_are_questions() {
    let mut desk = desk();
    taken(&mut desk, "c4", cut(4));
    assert!(matches!(
        verdict(&mut desk, "x", cut(4), false),
        Verdict::Asked(_)
    ));
    taken(&mut desk, "d", delivered(3));
    taken(&mut desk, "c1", cut(1));
    let nobody = verdict(&mut desk, "y", cut(9), true);
    let Verdict::Refused(why) = nobody else {
        panic!("{nobody:?}");
    };
    assert!(why.mend().contains("1 to 4"), "{why:?}");
}

#[test]
fn a_piece_measured_off_counts_when_it_is_accepted() {
    let mut desk = desk();
    taken(&mut desk, "d", delivered(3));
    let off = |by: i64| inches(60) - Length::from_ticks(by);
    let told = |by| {
        Told::Cut(Cut {
            joint: 1,
            to: None,
            lengths: vec![(2, off(by))],
            taken: None,
            floor: None,
        })
    };
    taken(&mut desk, "c", told(255));
    let id = piece("A1-V", 1, 1, None);
    let made = |desk: &Desk<'_, Vec<Entry>>| desk.stand().weeks["week-1"].pieces[&id].counts();
    assert!(!made(&desk), "255 ticks are over 1/32 in, 254");
    taken(
        &mut desk,
        "yes",
        Told::Accepted(Accepted::Piece(id.clone())),
    );
    assert!(made(&desk));
    let mut other = self::desk();
    taken(&mut other, "d", delivered(3));
    taken(&mut other, "c", told(254));
    assert!(made(&other), "just the tolerance is within it");
}

#[test]
fn a_spoiled_piece_is_missing_and_what_is_left_lies() {
    let mut desk = desk();
    taken(&mut desk, "d", delivered(3));
    taken(&mut desk, "c", cut(1));
    let id = piece("A1-V", 1, 1, None);
    let spoiled = |left| {
        Told::Spoiled(Spoiled {
            piece: id.clone(),
            left: Some(left),
            tag: None,
        })
    };
    let more = verdict(&mut desk, "s", spoiled(inches(61)), true);
    assert!(matches!(more, Verdict::Refused(_)), "{more:?}");
    taken(&mut desk, "s", spoiled(inches(40)));
    let stand = desk.stand();
    assert_eq!(balance(stand, Account::Spoiled), inches(20));
    assert_eq!(stand.weeks["week-1"].pieces[&id].state, PieceState::Missing);
    let left = stand.tagged("S1");
    let left = &stand.rack[left[0]];
    assert_eq!(
        (left.length, left.near_trim, left.far_trim),
        (inches(40), false, false)
    );
    let lacks = verdict(&mut desk, "done", done("A1", 1), false);
    let Verdict::Asked(why) = lacks else {
        panic!("{lacks:?}");
    };
    assert!(why.what().contains("A1-HB/2, A1-V"), "{why:?}");
}

fn done(mark: &str, copy: u32) -> Told {
    Told::Done(GateCopy {
        mark: mark.to_owned(),
        copy,
    })
}

#[test]
fn a_bent_joint_serves_where_it_is_long_enough() {
    let mut desk = desk();
    taken(&mut desk, "d", delivered(3));
    let bent = Told::Bent(Bent {
        line: 1,
        joints: 1,
        left: inches(110),
    });
    taken(&mut desk, "b", bent);
    assert_eq!(balance(desk.stand(), Account::Scrap), inches(142));
    // Joints 1 and 2 take whole ones, as planned; joint 3 needs 100 1/2 in and finds the bent one.
    for number in [1, 2, 3] {
        taken(&mut desk, &format!("c{number}"), cut(number));
    }
    assert_eq!(desk.stand().weeks["week-1"].lines[&1].lie(), 0);
    assert_eq!(breaches(desk.stand()), []);
}

#[test]
fn what_does_not_come_is_no_order_any_more() {
    let mut desk = desk();
    let short = |comes| {
        Told::Short(Short {
            line: 1,
            joints: 1,
            comes,
        })
    };
    taken(&mut desk, "d", delivered(1));
    taken(&mut desk, "s", short(Comes::Later(None)));
    let line = |desk: &Desk<'_, Vec<Entry>>| desk.stand().weeks["week-1"].lines[&1].clone();
    assert_eq!((line(&desk).on_order(), line(&desk).to_order()), (1, 1));
    taken(&mut desk, "n", short(Comes::Not(None)));
    assert_eq!((line(&desk).on_order(), line(&desk).to_order()), (0, 2));
}

#[test]
fn facts_are_taken_whatever_was_withdrawn() {
    let mut desk = desk();
    taken(&mut desk, "w", Told::Withdrawn(Withdrawn::Plan));
    taken(&mut desk, "d", delivered(3));
    taken(&mut desk, "c", cut(1));
    assert!(!desk.stand().weeks["week-1"].replan.is_empty());
}

#[test]
fn a_splice_is_welded_from_pieces_that_are_there() {
    let mut desk = desk();
    taken(&mut desk, "d", delivered(3));
    taken(&mut desk, "c1", cut(1));
    let weld = || {
        Told::Welded(Welded {
            line: piece("A1-HB", 1, 1, None),
            splice: None,
        })
    };
    let early = verdict(&mut desk, "w", weld(), false);
    assert!(matches!(early, Verdict::Asked(_)), "{early:?}");
    taken(&mut desk, "c2", cut(2));
    taken(&mut desk, "w", weld());
    let spoiled = Told::Spoiled(Spoiled {
        piece: piece("A1-HB", 1, 1, Some(1)),
        left: None,
        tag: None,
    });
    let fast = verdict(&mut desk, "s", spoiled, false);
    assert!(matches!(fast, Verdict::Asked(_)), "{fast:?}");
    taken(&mut desk, "done", done("A1", 1));
}

#[test]
fn numbers_on_paper_mean_one_thing_for_all_time() {
    let mut desk = desk();
    let issue = |plan| Told::Issued(Box::new(plan));
    let same = verdict(&mut desk, "again", issue(small()), true);
    assert!(matches!(same, Verdict::Refused(_)), "{same:?}");
    let mut other = small();
    other.plan = "9999-0000".to_owned();
    other.joints[2].pieces.swap(0, 1);
    let Verdict::Refused(why) = verdict(&mut desk, "other", issue(other), true) else {
        panic!("joint 3 has its pieces in another order");
    };
    assert!(why.what().contains("joint 3"), "{why:?}");
    // The same joints but one, and a new one under a new number: that may follow.
    let mut next = small();
    (next.plan, next.revision) = ("9999-0001".to_owned(), 1);
    next.joints[2].number = 5;
    next.joints[2].keep = Some("K5".to_owned());
    assert!(matches!(
        verdict(&mut desk, "next", issue(next), true),
        Verdict::Taken(2)
    ));
    let week = &desk.stand().weeks["week-1"];
    assert!(week.joints[&3].void && !week.joints[&5].void);
    taken(&mut desk, "d", delivered(3));
    taken(&mut desk, "old", cut(3));
    assert!(
        !desk.stand().weeks["week-1"].replan.is_empty(),
        "cut by an old sheet"
    );
}

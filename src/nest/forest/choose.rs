//! The trees that make up a plan: a whole-number program over them, and what its answer is cut and spliced of.

use super::super::best_fit::net;
use super::super::whole_numbers::{Column, Program};
use super::grow::{From, Label, Tree};
use super::worth::Worth;

/// A joint of a tree.
#[derive(Clone, Debug, Default)]
pub(super) struct Joint {
    /// Index into the pool's stocks.
    pub stock: usize,
    /// Class and length of everything on it.
    pub pieces: Vec<(u8, i64)>,
}

/// What trees are made of.
#[derive(Clone, Debug, Default)]
pub(super) struct Made {
    pub joints: Vec<Joint>,
    /// Kind of each line, and the piece before its splice.
    pub lines: Vec<(usize, i64)>,
}

impl Made {
    /// Adds a tree.
    pub fn add(&mut self, worth: &Worth<'_>, labels: &[Label], tree: &Tree) {
        let mut joint = Joint {
            stock: tree.stock,
            pieces: Vec::new(),
        };
        self.open(worth, labels, tree.joint, &mut joint);
        self.joints.push(joint);
    }

    fn open(&mut self, worth: &Worth<'_>, labels: &[Label], at: usize, joint: &mut Joint) {
        match labels[at].from {
            From::Items(content) => {
                for (k, thing) in worth.items.iter().enumerate() {
                    let item = &worth.pool.items[thing.item];
                    for _ in 0..worth.kinds.count(content, k) {
                        joint.pieces.push((item.class, item.length));
                    }
                }
            }
            From::Joined(open, tree) => {
                self.open(worth, labels, open, joint);
                self.open(worth, labels, tree, joint);
            }
            From::Hung(open, stock, kind, cut, hangs_last) => {
                let line = &worth.line_kinds[kind];
                let (mut near, mut hung) = (cut, line.total - cut);
                if !hangs_last {
                    (near, hung) = (hung, near);
                }
                joint.pieces.push((line.class, hung));
                let mut below = Joint {
                    stock,
                    pieces: vec![(line.class, near)],
                };
                self.open(worth, labels, open, &mut below);
                self.joints.push(below);
                self.lines.push((kind, cut));
            }
        }
    }
}

/// Pieces of each item, lines of each kind, joints of each stock, credited feet.
pub(super) fn program(worth: &Worth<'_>, labels: &[Label], trees: &[Tree]) -> Program {
    let pool = worth.pool;
    let items: u32 = pool.items.iter().map(|i| i.count).sum();
    let many = f64::from(items) * 2.0 + worth.lines() as f64 * 4.0 + 10.0;
    let mut program = Program::default();
    for thing in &worth.items {
        let want = f64::from(pool.items[thing.item].count);
        program.rows.push((want, many));
    }
    let lines = program.rows.len();
    for kind in &worth.line_kinds {
        let count = f64::from(kind.count);
        program.rows.push((count, count));
    }
    let stocks = program.rows.len();
    for stock in &pool.stocks {
        let most = stock.limit.map_or(many, |l| f64::from(l).min(many));
        program.rows.push((0.0, most));
    }
    let feet = program.rows.len();
    let longest = worth.room / pool.credit.foot.max(1) + 1;
    program.rows.push((0.0, many * longest as f64));
    program.whole_rows = (stocks..=feet).collect();
    for tree in trees {
        let mut made = Made::default();
        made.add(worth, labels, tree);
        let count = |k| f64::from(worth.kinds.count(tree.content, k));
        let mut entries: Vec<(usize, f64)> = Vec::new();
        entries.extend((0..lines).map(|k| (k, count(k))));
        let kinds = worth.line_kinds.iter().enumerate();
        entries.extend(kinds.map(|(l, kind)| (lines + l, count(kind.kind))));
        for joint in &made.joints {
            let length: i64 = joint.pieces.iter().map(|p| p.1 + pool.kerf).sum();
            let cost = pool.stocks[joint.stock].cost;
            let credit = cost - net(pool, joint.stock, length).unwrap_or(cost);
            let credited = credit / pool.credit.per_foot.max(1);
            entries.extend([(stocks + joint.stock, 1.0), (feet, credited as f64)]);
        }
        program.columns.push(Column {
            money: tree.money,
            most: many,
            entries: entries
                .into_iter()
                .filter(|e| e.1 > 0.0)
                .map(|(r, n)| (r as u32, n))
                .collect(),
            whole: true,
        });
    }
    program
}

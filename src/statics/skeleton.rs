//! `Skeleton`: the model's nodes and bars, numbered along the leaf so that the stiffness is a
//! narrow band.
//!
//! The carrying horizontal is numbered first at every bay line. So a gate hung from its top and the
//! same gate, upside down, carried on its bottom run through the very same arithmetic.

use super::{Bar, Model, Node, Section, Structure, WebEnds};
use crate::gate::Role;
use crate::order::{Carrier, Lean};

/// One of the two horizontals.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Line {
    /// The bottom horizontal.
    Bottom,
    /// The top horizontal.
    Top,
}

impl Line {
    /// Both, bottom first.
    pub const BOTH: [Line; 2] = [Line::Bottom, Line::Top];

    /// 0 for the bottom, 1 for the top.
    pub fn index(self) -> usize {
        match self {
            Line::Bottom => 0,
            Line::Top => 1,
        }
    }

    /// Which line a member of the gate is; `None` when it is no horizontal.
    pub fn of(role: Role) -> Option<Line> {
        match role {
            Role::BottomHorizontal => Some(Line::Bottom),
            Role::TopHorizontal => Some(Line::Top),
            _ => None,
        }
    }

    /// The other one.
    pub fn other(self) -> Line {
        match self {
            Line::Bottom => Line::Top,
            Line::Top => Line::Bottom,
        }
    }
}

/// A horizontal's nodes from the latch end, and the bars between them.
#[derive(Clone, Debug, Default)]
pub(super) struct Chain {
    pub nodes: Vec<usize>,
    pub at: Vec<f64>,
    pub bars: Vec<usize>,
    /// Bay (0-based) of each bar.
    pub bays: Vec<usize>,
}

/// The model as a structure.
#[derive(Clone, Debug)]
pub(super) struct Skeleton {
    pub structure: Structure,
    pub chains: [Chain; 2],
    /// Bars at bay lines 0..=n, drawn upward.
    pub uprights: Vec<usize>,
    /// Bars in bays 1..=n (index 0..n), drawn toward the tail.
    pub diagonals: Vec<usize>,
}

struct Builder<'a> {
    model: &'a Model,
    nodes: Vec<Node>,
    bars: Vec<Bar>,
    chains: [Chain; 2],
}

impl Skeleton {
    /// Lays out a judged model.
    pub fn new(model: &Model) -> Skeleton {
        let mut builder = Builder {
            model,
            nodes: Vec::new(),
            bars: Vec::new(),
            chains: Default::default(),
        };
        let order = match model.carrier {
            Carrier::Top => [Line::Top, Line::Bottom],
            Carrier::Bottom | Carrier::Both => [Line::Bottom, Line::Top],
        };
        let mut landings = Vec::new();
        let mut on_lines = Vec::new();
        for (i, x) in model.lines.iter().enumerate() {
            let ends = order.map(|line| builder.node(line, *x));
            let [bottom, top] = if order[0] == Line::Bottom {
                ends
            } else {
                [ends[1], ends[0]]
            };
            on_lines.push([bottom, top]);
            if model.landing > 0.0 && i < model.bays() {
                let next = model.lines[i + 1];
                let ends = order.map(|line| {
                    let near = (line == Line::Bottom) == (model.lean == Lean::HeadToTail);
                    let x = if near {
                        x + model.landing
                    } else {
                        next - model.landing
                    };
                    builder.node(line, x)
                });
                landings.push(if order[0] == Line::Bottom {
                    ends
                } else {
                    [ends[1], ends[0]]
                });
            }
        }
        for line in order {
            builder.chain(line);
        }
        let uprights = builder.uprights(&on_lines);
        let diagonals = builder.diagonals(&on_lines, &landings);
        Skeleton {
            structure: Structure::new(builder.nodes, builder.bars, model.elasticity),
            chains: builder.chains,
            uprights,
            diagonals,
        }
    }
}

impl Builder<'_> {
    fn node(&mut self, line: Line, x: f64) -> usize {
        let y = if line == Line::Bottom {
            0.0
        } else {
            self.model.height
        };
        let chain = &mut self.chains[line.index()];
        chain.nodes.push(self.nodes.len());
        chain.at.push(x);
        self.nodes.push(Node { x, y });
        self.nodes.len() - 1
    }

    fn bar(&mut self, from: usize, to: usize, section: Section, load: f64, pinned: bool) -> usize {
        self.bars.push(Bar {
            from,
            to,
            section,
            load,
            pinned,
        });
        self.bars.len() - 1
    }

    fn chain(&mut self, line: Line) {
        let (section, load) = (self.model.horizontal, self.model.horizontal_load());
        let nodes = self.chains[line.index()].nodes.clone();
        let mut bay = 0;
        for pair in nodes.windows(2) {
            let start = self.nodes[pair[0]].x;
            while bay + 2 < self.model.lines.len() && self.model.lines[bay + 1] <= start {
                bay += 1;
            }
            let bar = self.bar(pair[0], pair[1], section, load, false);
            self.chains[line.index()].bars.push(bar);
            self.chains[line.index()].bays.push(bay);
        }
    }

    fn web(&mut self, from: usize, to: usize, section: Section) -> usize {
        let pinned = self.model.web_ends == WebEnds::Pinned;
        self.bar(from, to, section, self.model.web_load(section), pinned)
    }

    fn uprights(&mut self, on_lines: &[[usize; 2]]) -> Vec<usize> {
        let last = on_lines.len() - 1;
        let section = |i: usize| match i {
            0 => self.model.posts[0],
            i if i == last => self.model.posts[1],
            _ => self.model.vertical,
        };
        let sections: Vec<Section> = (0..=last).map(section).collect();
        let ends = on_lines.iter().zip(sections);
        ends.map(|([bottom, top], section)| self.web(*bottom, *top, section))
            .collect()
    }

    fn diagonals(&mut self, on_lines: &[[usize; 2]], landings: &[[usize; 2]]) -> Vec<usize> {
        let mut bars = Vec::new();
        for bay in 0..on_lines.len() - 1 {
            let (near, far) = match landings.get(bay) {
                Some(ends) => (ends, ends),
                None => (&on_lines[bay], &on_lines[bay + 1]),
            };
            let (from, to) = match self.model.lean {
                Lean::HeadToTail => (near[0], far[1]),
                Lean::HeadToLatch => (near[1], far[0]),
            };
            bars.push(self.web(from, to, self.model.diagonal));
        }
        bars
    }
}

//! A gate's shape, its parts, the copes of their ends, and the forces in it.

mod common_practice;
mod cope_properties;
mod cope_radial;
mod cope_reference;
mod gate_properties;
mod gate_reference;
mod gate_variants;
#[path = "../statics/gates.rs"]
mod gates;
mod impossible_gates;
mod pipe_weights;
mod statics_handbook;
mod statics_limits;
mod statics_mirror;
mod statics_reference;
#[path = "../world/tiny.rs"]
mod tiny;
#[path = "../statics/variants.rs"]
mod variants;
mod worked_gate;

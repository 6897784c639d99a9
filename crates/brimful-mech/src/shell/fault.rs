//! What can go wrong with a shell, said with the place and what to do.

use super::model::Dof;
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt;

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(rename = "ShellFault")]
pub enum Fault {
    /// A number in the input cannot be meant.
    Input {
        /// What is wrong and where.
        what: String,
    },
    /// Part of the shell can move without resistance.
    Mechanism {
        /// A node of the loose part.
        node: usize,
        /// The degree of freedom that meets no resistance.
        dof: Dof,
    },
    /// A load acts where nothing is.
    LoadOnNothing {
        /// The node.
        node: usize,
        /// The degree of freedom that no plate, bar or spring takes part in.
        dof: Dof,
    },
    /// No equilibrium was found.
    NotConverged {
        /// Share of the load for which equilibrium was found last.
        reached: f64,
        /// Share of the load that was tried.
        tried: f64,
        /// Node with the largest residual force.
        node: usize,
        /// Residual force there, N.
        #[serde(rename = "residual_n")]
        residual: f64,
    },
    /// The shell snaps or buckles before the whole load is on.
    Unstable {
        /// Share of the load that is still borne stably.
        stable: f64,
        /// Share of the load at which it is not.
        unstable: f64,
        /// Node that moves most when it goes.
        node: usize,
    },
    /// Contacts open and close without end.
    Chatter {
        /// Share of the load that was tried.
        tried: f64,
        /// Number of a contact that does not settle.
        contact: usize,
    },
    /// Eigenvalues did not settle.
    ModesNotConverged {
        /// How many were asked for.
        asked: usize,
        /// How many settled.
        settled: usize,
    },
    /// The sparse solver could not do its work.
    Solver {
        /// In its words.
        what: String,
    },
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Input { what } => write!(f, "{what}"),
            Self::Mechanism { node, dof } => write!(
                f,
                "Node {node} can move ({}) without resistance: a part is loose or is not held enough. Constraint it or join it.",
                name(*dof)
            ),
            Self::LoadOnNothing { node, dof } => write!(
                f,
                "A load acts on node {node} ({}), where nothing can take it. Put it on a plate.",
                name(*dof)
            ),
            Self::NotConverged {
                reached,
                tried,
                node,
                residual,
            } => write!(
                f,
                "No equilibrium was found at {:.1} % of the load (found up to {:.1} %); most is left over at node {node}, {residual:.3e} N. Stiffen or support the shell there.",
                tried * 100.0,
                reached * 100.0
            ),
            Self::Unstable {
                stable,
                unstable,
                node,
            } => write!(
                f,
                "The shell loses its stability between {:.1} % and {:.1} % of the load; node {node} moves most. Stiffen or support it there.",
                stable * 100.0,
                unstable * 100.0
            ),
            Self::Chatter { tried, contact } => write!(
                f,
                "At {:.1} % of the load contact {contact} opens and closes without end. Constraint the shell against sliding or rocking there, or soften the contact.",
                tried * 100.0
            ),
            Self::ModesNotConverged { asked, settled } => write!(
                f,
                "Only {settled} of {asked} eigenvalues settled. Ask for fewer."
            ),
            Self::Solver { what } => write!(f, "The equations could not be solved: {what}."),
        }
    }
}

impl std::error::Error for Fault {}

fn name(dof: Dof) -> &'static str {
    match dof {
        Dof::X => "along x",
        Dof::Y => "along y",
        Dof::Z => "along z",
        Dof::TurnX => "turning about x",
        Dof::TurnY => "turning about y",
        Dof::TurnZ => "turning about z",
    }
}

//! What the meshing and the solving of a shell can fail at, in clauses.

use crate::text::Text;
use crate::words::Words;
use brimful_geom::mesh::MeshFault;
use brimful_mech::{plate, shell};
use brimful_panels::finding::kind::NoModel;

impl Words<'_> {
    /// Why a tank is no shell that can be computed.
    pub(crate) fn no_model(&self, reason: &NoModel) -> Text {
        match reason {
            NoModel::Body(fault) => {
                let fault = self.offset_fault(fault);
                say!(
                    self,
                    "the body has no middle surface: {fault}",
                    fault = fault
                )
            }
            NoModel::InnerPanel { panel, fault } => {
                let panel = self.panel(panel);
                match fault {
                    Some(fault) => say!(
                        self,
                        "the inner panel {panel} has no middle surface: {fault}",
                        panel = panel,
                        fault = self.boolean_fault(fault),
                    ),
                    None => say!(
                        self,
                        "the inner panel {panel} does not reach into the cavity",
                        panel = panel,
                    ),
                }
            }
            NoModel::Mesh(fault) => say!(
                self,
                "its middle surface cannot be meshed: {fault}",
                fault = self.mesh(fault),
            ),
            NoModel::Shell(fault) => {
                let fault = self.shell(fault);
                say!(self, "its shell cannot be solved: {fault}", fault = fault)
            }
            NoModel::NotCarried => {
                say!(
                    self,
                    "no level part of its floor rests on the support of the job"
                )
            }
        }
    }

    fn mesh(&self, fault: &MeshFault) -> Text {
        match fault {
            MeshFault::SidesTouch(_, place)
            | MeshFault::Overlap(_, _, place)
            | MeshFault::LinesCross(_, place) => {
                say!(
                    self,
                    "two of its lines meet near {place}",
                    place = self.place(*place)
                )
            }
            MeshFault::TooManyNodes(_, limit) => {
                say!(
                    self,
                    "it would need more than {limit} nodes",
                    limit = *limit
                )
            }
            MeshFault::Policy(_)
            | MeshFault::FlatSize(..)
            | MeshFault::Frame(_)
            | MeshFault::NoOutline(_)
            | MeshFault::Outline(..)
            | MeshFault::WrongWay(..)
            | MeshFault::SegmentOutside(..)
            | MeshFault::PointOutside(..)
            | MeshFault::AreaLost(..) => say!(self, "the outline of a panel cannot be used"),
        }
    }

    /// What the solver of a shell met, in a clause.
    pub(crate) fn shell(&self, fault: &shell::Fault) -> Text {
        match fault {
            shell::Fault::Input { .. } => say!(self, "a number of its input cannot be meant"),
            shell::Fault::Mechanism { .. } => say!(self, "part of it can move without resistance"),
            shell::Fault::LoadOnNothing { .. } => say!(self, "a load acts where nothing is"),
            shell::Fault::NotConverged { reached, .. } => say!(
                self,
                "no equilibrium is found beyond {reached} of the load",
                reached = self.percent(*reached),
            ),
            shell::Fault::Unstable { stable, .. } => say!(
                self,
                "it buckles or snaps at {stable} of the load or a little more",
                stable = self.percent(*stable),
            ),
            shell::Fault::Chatter { .. } => {
                say!(self, "whether it bears on its support does not settle")
            }
            shell::Fault::ModesNotConverged { .. } => say!(self, "its modes do not converge"),
            shell::Fault::Solver { .. } => say!(self, "the solver failed or was cancelled"),
        }
    }

    /// Why the published coefficients have no row for a plate, in a clause.
    pub(crate) fn plate(&self, reason: &plate::NotCovered) -> Text {
        match reason {
            plate::NotCovered::BadNumber(_) => {
                say!(self, "a size or a load of it cannot be meant")
            }
            plate::NotCovered::Shape { ratio, from, to } => {
                let [ratio, from, to] = [ratio, from, to].map(|number| self.number(*number, 3));
                say!(
                    self,
                    "its height over its width is {ratio}, and the tables go from {from} to {to}",
                    ratio = ratio,
                    from = from,
                    to = to,
                )
            }
            plate::NotCovered::Poisson { ratio } => say!(
                self,
                "no table is given for a Poisson's ratio of {ratio}",
                ratio = self.number(*ratio, 3),
            ),
            plate::NotCovered::Load => say!(
                self,
                "no table is given for a pressure that changes sideways under a free top"
            ),
            plate::NotCovered::TooDeep { .. } => {
                say!(self, "it would bend by more than half its thickness")
            }
        }
    }
}

//! What each support puts on the tank, by the forces in the contacts and springs of a state.

use super::model::Model;
use super::support::SPRINGS;
use brimful_geom::vector::Vec3;
use brimful_mech::shell::State;
use brimful_mech::shell::model::Shell;

/// What one of the supports puts on the tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reaction {
    /// Its push, N: up, or square to the floor that lies in a bed; of a strap its tension; of a chock none.
    pub push: f64,
    /// What it holds square to that, by friction or by standing in the way, N.
    pub sideways: Vec3,
}

/// The reactions of the bearers and, after them, of the chocks. The shell is that of the load case, whose
/// contacts may push at an angle; `borne_by` has the number of the support of each.
pub fn reactions(model: &Model, shell: &Shell, borne_by: &[usize], state: &State) -> Vec<Reaction> {
    let nothing = Reaction {
        push: 0.0,
        sideways: Vec3::ZERO,
    };
    let mut reactions = vec![nothing; model.supports().len()];
    let contacts = shell.contacts.iter().zip(&state.contact_forces);
    for (number, ((contact, force), &by)) in contacts.zip(borne_by).enumerate() {
        let force = contact.push * *force;
        // The contacts of chocks come after those of the bearers, which are those of the model.
        let of_bearer = model.shell.contacts.get(number);
        let square = of_bearer.map_or(Vec3::ZERO, |it| it.push);
        reactions[by].push += force.dot(square);
        reactions[by].sideways += force - square * force.dot(square);
    }
    let springs = shell.springs.iter().zip(&state.spring_forces);
    for (number, (spring, force)) in springs.enumerate() {
        reactions[borne_by[number / SPRINGS]].sideways += spring.direction * *force;
    }
    for (number, reaction) in reactions.iter_mut().enumerate() {
        reaction.push /= model.bearers.pushes_of_tension(number);
    }
    reactions
}

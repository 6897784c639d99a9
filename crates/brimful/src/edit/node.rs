//! The nodes of a job's text.

use super::path::Step;
use super::refusal::{NO_BLOCK, NO_LIST, NOT_THERE};
use toml_edit::{Array, ArrayOfTables, Item, TableLike, Value};

/// A node, by what can be done with it.
pub(super) enum Node<'a> {
    Block(&'a mut dyn TableLike),
    List(&'a mut Array),
    Blocks(&'a mut ArrayOfTables),
    /// It holds nothing.
    Leaf,
}

impl<'a> From<&'a mut Item> for Node<'a> {
    fn from(item: &'a mut Item) -> Self {
        match item {
            Item::Table(table) => Self::Block(table),
            Item::ArrayOfTables(blocks) => Self::Blocks(blocks),
            Item::Value(value) => value.into(),
            Item::None => Self::Leaf,
        }
    }
}

impl<'a> From<&'a mut Value> for Node<'a> {
    fn from(value: &'a mut Value) -> Self {
        match value {
            Value::InlineTable(table) => Self::Block(table),
            Value::Array(list) => Self::List(list),
            _ => Self::Leaf,
        }
    }
}

impl<'a> Node<'a> {
    /// The node at a path that is there.
    pub(super) fn at(item: &'a mut Item, steps: &[Step]) -> Result<Self, &'static str> {
        steps.iter().try_fold(Self::from(item), Self::inner)
    }

    fn inner(self, step: &Step) -> Result<Self, &'static str> {
        match (self, step) {
            (Self::Block(block), Step::Key(key)) => {
                block.get_mut(key).map(Self::from).ok_or(NOT_THERE)
            }
            (Self::List(list), Step::Number(number)) => {
                list.get_mut(*number).map(Self::from).ok_or(NOT_THERE)
            }
            (Self::Blocks(blocks), Step::Number(number)) => match blocks.get_mut(*number) {
                Some(block) => Ok(Self::Block(block)),
                None => Err(NOT_THERE),
            },
            (_, Step::Key(_)) => Err(NO_BLOCK),
            (_, Step::Number(_)) => Err(NO_LIST),
        }
    }
}

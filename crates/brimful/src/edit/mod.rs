//! Changes to a job's text key by key, everything else (comments, order, spacing) left as it is.
//!
//! A place is written as the faults of a job write it, counted from 1: `body.box[2]`,
//! `opening[3].at[1]`. What is set is kept as typed, also where it cannot be used.

mod list;
mod node;
mod path;
mod refusal;

use node::Node;
use path::{Step, steps};
pub(crate) use refusal::EditRefused;
use refusal::{Edited, NO_BLOCK, NO_LIST, NOT_THERE};
use schemars::JsonSchema;
use serde::Deserialize;
use serde_json::Value as Json;
use toml_edit::{Array, ArrayOfTables, DocumentMut, InlineTable, Item, Table, TableLike, Value};

/// One change: one of `set`, `append`, `insert` and `remove`, at a place such as `opening[2].at[1]`, counted
/// from 1.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct Edit {
    /// Where.
    path: String,
    /// What is written there; a list grows by one entry at most.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    set: Option<Json>,
    /// A block that is added to a list of blocks.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    append: Option<Json>,
    /// An entry that is put into a list, before the one that stands at the place; the place after the
    /// last is at the end.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    insert: Option<Json>,
    /// Whether what is there goes.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    remove: bool,
}

/// The text after all changes.
///
/// # Errors
/// The text is no TOML (it can only be written as a whole), or a place that is not there.
pub(crate) fn edited(text: &str, edits: &[Edit]) -> Result<String, EditRefused> {
    let ends = LineEnds::of(text);
    let mut document: DocumentMut = text
        .replace(
            CRLF, "
",
        )
        .parse()
        .map_err(|_| EditRefused::NotToml)?;
    for edit in edits {
        let steps = steps(&edit.path)
            .ok_or_else(|| misplaced(&edit.path, "it is no place in a job file"))?;
        made(document.as_item_mut(), &steps, edit)
            .map_err(|reason| misplaced(&edit.path, reason))?;
    }
    Ok(ends.put_back(document.to_string()))
}

/// The end of a line as some editors write it.
const CRLF: &str = "\r\n";

/// What the lines of a text end in.
#[derive(Clone, Copy)]
enum LineEnds {
    Lf,
    CrLf,
}

impl LineEnds {
    /// What most of the lines end in.
    fn of(text: &str) -> Self {
        let (all, long) = (text.matches('\n').count(), text.matches(CRLF).count());
        if 2 * long > all { Self::CrLf } else { Self::Lf }
    }

    fn put_back(self, text: String) -> String {
        match self {
            Self::Lf => text,
            Self::CrLf => text.replace('\n', CRLF),
        }
    }
}

fn made(item: &mut Item, steps: &[Step], edit: &Edit) -> Edited {
    match (&edit.set, &edit.append, &edit.insert, edit.remove) {
        (Some(value), None, None, false) => set(item, steps, toml(value)?),
        (None, Some(block), None, false) => append(item, steps, block),
        (None, None, Some(value), false) => insert(item, steps, toml(value)?),
        (None, None, None, true) => remove(item, steps),
        _ => Err("one of `set`, `append`, `insert` and `remove` is wanted"),
    }
}

fn misplaced(path: &str, reason: &'static str) -> EditRefused {
    EditRefused::Misplaced {
        path: path.to_owned(),
        reason,
    }
}

const NO_ENTRY: &str = "null is no entry";

fn set(item: &mut Item, steps: &[Step], value: Value) -> Edited {
    match steps {
        [] => {
            put(item, value);
            Ok(())
        }
        [Step::Key(key), rest @ ..] => {
            if item.is_none() {
                *item = Item::Table(new_block());
            }
            let block = item.as_table_like_mut().ok_or(NO_BLOCK)?;
            set(entry(block, key), rest, value)
        }
        [Step::Number(number), rest @ ..] => {
            if item.is_none() {
                *item = Item::Value(Value::Array(Array::new()));
            }
            match item {
                Item::ArrayOfTables(blocks) => {
                    let block = blocks.get_mut(*number).ok_or(NOT_THERE)?;
                    let [Step::Key(key), rest @ ..] = rest else {
                        return Err(NO_BLOCK);
                    };
                    set(entry(block, key), rest, value)
                }
                Item::Value(Value::Array(list)) => set_in_list(list, *number, rest, value),
                _ => Err(NO_LIST),
            }
        }
    }
}

fn entry<'a>(block: &'a mut dyn TableLike, key: &str) -> &'a mut Item {
    block.entry(key).or_insert(Item::None)
}

fn set_in_list(list: &mut Array, number: usize, rest: &[Step], value: Value) -> Edited {
    let old = list::grown(list, number)?;
    match rest {
        [] => {
            let decor = old.decor().clone();
            *old = value;
            *old.decor_mut() = decor;
            Ok(())
        }
        [Step::Number(next), rest @ ..] => {
            if !old.is_array() {
                *old = Value::Array(Array::new());
            }
            let inner = old.as_array_mut().ok_or(NO_LIST)?;
            set_in_list(inner, *next, rest, value)
        }
        [Step::Key(key), rest @ ..] => {
            let block = old.as_inline_table_mut().ok_or(NO_BLOCK)?;
            set(entry(block, key), rest, value)
        }
    }
}

/// Puts a value in place of another, in its spacing and before its comment.
fn put(item: &mut Item, mut value: Value) {
    if let Some(old) = item.as_value() {
        *value.decor_mut() = old.decor().clone();
    }
    *item = Item::Value(value);
}

fn append(item: &mut Item, steps: &[Step], block: &Json) -> Edited {
    if let [Step::Key(key), rest @ ..] = steps {
        if item.is_none() {
            *item = Item::Table(new_block());
        }
        let holder = item.as_table_like_mut().ok_or(NO_BLOCK)?;
        return append(entry(holder, key), rest, block);
    }
    if let [Step::Number(number), Step::Key(key), rest @ ..] = steps {
        let blocks = item.as_array_of_tables_mut().ok_or(NO_LIST)?;
        let holder = blocks.get_mut(*number).ok_or(NOT_THERE)?;
        return append(entry(holder, key), rest, block);
    }
    if !steps.is_empty() {
        return Err(NO_LIST);
    }
    let entries = block.as_object().ok_or("a block has entries")?;
    if item.is_none() {
        *item = Item::ArrayOfTables(ArrayOfTables::new());
    }
    match item {
        Item::ArrayOfTables(blocks) => {
            let mut table = new_block();
            for (key, value) in entries {
                table.insert(key, Item::Value(toml(value)?));
            }
            blocks.push(table);
            Ok(())
        }
        Item::Value(Value::Array(list)) => list::insert(list, list.len(), toml(block)?),
        _ => Err(NO_LIST),
    }
}

fn insert(item: &mut Item, steps: &[Step], value: Value) -> Edited {
    let Some((Step::Number(number), to)) = steps.split_last() else {
        return Err("an entry is put before another of a list, by its number");
    };
    match Node::at(item, to)? {
        Node::List(list) => list::insert(list, *number, value),
        Node::Blocks(_) => Err("a block is added with `append`"),
        Node::Block(_) | Node::Leaf => Err(NO_LIST),
    }
}

fn remove(item: &mut Item, steps: &[Step]) -> Edited {
    let (last, to) = steps.split_last().ok_or(NOT_THERE)?;
    match (Node::at(item, to)?, last) {
        (Node::Block(block), Step::Key(key)) => block.remove(key).map(drop).ok_or(NOT_THERE),
        (Node::List(list), Step::Number(number)) => list::remove(list, *number),
        (Node::Blocks(blocks), Step::Number(number)) if *number < blocks.len() => {
            blocks.remove(*number);
            // A list of blocks with no block left is not written at all.
            if blocks.is_empty() {
                return remove(item, to);
            }
            Ok(())
        }
        _ => Err(NOT_THERE),
    }
}

/// A block with an empty line before it.
fn new_block() -> Table {
    let mut table = Table::new();
    table.decor_mut().set_prefix("\n");
    table
}

/// A value of the request as it is written in a job.
fn toml(value: &Json) -> Result<Value, &'static str> {
    Ok(match value {
        Json::Null => return Err(NO_ENTRY),
        Json::Bool(truth) => Value::from(*truth),
        Json::Number(number) => match number.as_i64() {
            Some(whole) => Value::from(whole),
            None => Value::from(number.as_f64().ok_or(NO_ENTRY)?),
        },
        Json::String(text) => Value::from(text.as_str()),
        Json::Array(list) => Value::Array(list.iter().map(toml).collect::<Result<Array, _>>()?),
        Json::Object(entries) => {
            let mut table = InlineTable::new();
            for (key, value) in entries {
                table.insert(key, toml(value)?);
            }
            Value::InlineTable(table)
        }
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;
    use serde_json::json;

    const JOB: &str = "# my tank\n[body]\nbox = [680, 380, 280] # outside\nthickness = 8\n\n[[opening]]\nname = \"tap\" # brass\nat = [10, 20]\n";

    fn after(edits: Json) -> Result<String, EditRefused> {
        let edits: Vec<Edit> = serde_json::from_value(edits).unwrap();
        edited(JOB, &edits)
    }

    #[test]
    fn only_what_is_named_changes() {
        let text = after(json!([
            { "path": "body.box[2]", "set": "15 in" },
            { "path": "opening[1].at[1]", "set": 12.5 },
        ]));
        let wanted = JOB
            .replace("[680, 380, 280]", "[680, \"15 in\", 280]")
            .replace("[10, 20]", "[12.5, 20]");
        assert_eq!(text.unwrap(), wanted);
    }

    #[test]
    fn blocks_come_and_go() {
        let text = after(json!([
            { "path": "opening", "append": { "name": "vent", "at": [1, 2] } },
            { "path": "opening[1]", "remove": true },
            { "path": "space.box", "set": [700, 400, 300] },
            { "path": "stock.sheet", "append": { "size": [2000, 1000], "thickness": 8 } },
        ]))
        .unwrap();
        assert!(
            !text.contains("tap") && text.contains("[[opening]]\nname = \"vent\""),
            "{text}"
        );
        assert!(text.contains("\n[space]\nbox = [700, 400, 300]"), "{text}");
        assert!(
            text.contains("[[stock.sheet]]\nsize = [2000, 1000]"),
            "{text}"
        );
        assert!(text.starts_with("# my tank\n[body]"), "{text}");
    }

    #[test]
    fn what_is_not_there_is_refused() {
        for path in [
            "",
            "body..box",
            "opening[0].at",
            "opening[4].at[1]",
            "body.thickness.x",
            "a[b]",
        ] {
            let edit = json!([{ "path": path, "set": 1 }]);
            assert!(after(edit).is_err(), "{path}");
        }
        assert!(after(json!([{ "path": "body.at", "remove": true }])).is_err());
        assert!(after(json!([{ "path": "body.at" }])).is_err());
        assert!(after(json!([{ "path": "body.at", "set": null }])).is_err());
    }

    #[test]
    fn an_entry_is_put_into_a_list() {
        let text = after(json!([
            { "path": "body.box[2]", "insert": 5 },
            { "path": "opening[1].at[3]", "insert": "1 in" },
        ]));
        let wanted = JOB
            .replace("[680, 380, 280]", "[680, 5, 380, 280]")
            .replace("[10, 20]", "[10, 20, \"1 in\"]");
        assert_eq!(text.unwrap(), wanted);
        for path in [
            "body.box[5]",
            "body.box",
            "opening[1]",
            "body.thickness[1]",
            "z[1]",
        ] {
            let edit = json!([{ "path": path, "insert": 1 }]);
            assert!(after(edit).is_err(), "{path}");
        }
    }

    #[test]
    fn a_list_grows_by_no_more_than_one_entry() {
        let refused = after(json!([{ "path": "z[10000]", "set": 1 }])).unwrap_err();
        let grows = |reason: &str| reason.contains("grows by one entry at a time");
        assert!(
            matches!(&refused, EditRefused::Misplaced { reason, .. } if grows(reason)),
            "{refused:?}"
        );
    }

    #[test]
    fn lines_end_as_they_did() {
        let edits = json!([
            { "path": "body.thickness", "set": 9 },
            { "path": "job.notes", "set": "one\ntwo" },
            { "path": "body.box[1]", "remove": true },
        ]);
        let edits: Vec<Edit> = serde_json::from_value(edits).unwrap();
        let plain = edited(JOB, &edits).unwrap();
        let windows = edited(&JOB.replace('\n', CRLF), &edits).unwrap();
        assert_eq!(windows, plain.replace('\n', CRLF));
        assert!(windows.parse::<DocumentMut>().is_ok(), "{windows}");
    }

    /// Whatever is asked, the answer is a refusal or a text that is still TOML.
    #[test]
    fn random_edits_leave_a_text_that_can_be_read() {
        let mut random = fastrand::Rng::with_seed(3);
        let words = [
            "body",
            "box",
            "opening",
            "at",
            "name",
            "stock",
            "sheet",
            "x",
            "x y",
            "thickness",
        ];
        let values = [
            json!(1),
            json!(-2.5),
            json!("a \"b\" # c\n"),
            json!([1, [2, "3"], { "a": 4 }]),
            json!({ "b c": true, "d": { "e": [] } }),
            json!(null),
        ];
        // Lists of plain entries with comments are where an edit could break the form.
        let begin = format!(
            "{JOB}\n[stock]\nx = [ # all\n  1, # one\n  # above\n  2, 3, # row\n  4 # last\n]\nname = [1 # one\n]\n"
        );
        let mut text = begin.clone();
        for _ in 0..6_000 {
            let mut path = String::new();
            for step in 0..random.usize(1..4) {
                path.push_str(if step == 0 { "" } else { "." });
                path.push_str(words[random.usize(..words.len())]);
                for _ in 0..random.usize(..3) / 2 {
                    path.push_str(&format!("[{}]", random.usize(..5)));
                }
            }
            let value = values[random.usize(..values.len())].clone();
            let edit = match random.usize(..5) {
                0 => json!([{ "path": path, "append": value }]),
                1 => json!([{ "path": path, "remove": true }]),
                2 => json!([{ "path": path, "insert": value }]),
                _ => json!([{ "path": path, "set": value }]),
            };
            let edits: Vec<Edit> = serde_json::from_value(edit.clone()).unwrap();
            if let Ok(after) = edited(&text, &edits) {
                assert!(
                    after.parse::<DocumentMut>().is_ok(),
                    "{edit} made of\n{text}\n{after}"
                );
                text = if after.len() > 4_000 {
                    begin.clone()
                } else {
                    after
                };
            }
        }
    }
}

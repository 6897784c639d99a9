//! Lists, on one line or on many, changed one entry at a time with every comment where it was.
//!
//! The parser gives all that stands between two entries to the later one. A comment at the end of a
//! line is about what stands on that line, though, and what stands on lines of its own is about what
//! comes below.

use super::refusal::{Edited, NOT_THERE};
use toml_edit::{Array, Decor, RawString, Value};

/// What stands between two entries.
struct Between {
    /// The comment at the end of the line of the entry before; empty where there is none.
    tail: String,
    /// What is left: line breaks, comments on lines of their own, the indent of the entry after.
    lead: String,
}

impl Between {
    fn of(text: &str) -> Self {
        let line = text.find('\n').unwrap_or(text.len());
        let end = if text[..line].contains('#') { line } else { 0 };
        let (tail, lead) = text.split_at(end);
        Self {
            tail: tail.to_owned(),
            lead: lead.to_owned(),
        }
    }

    /// What stands before the entry of a number that is there.
    fn before(list: &Array, number: usize) -> Self {
        let prefix = list.get(number).and_then(|value| value.decor().prefix());
        let usual = if number == 0 { "" } else { " " };
        Self::of(prefix.and_then(RawString::as_str).unwrap_or(usual))
    }

    /// What stands after the last entry, or in a list without any; it is taken out.
    fn take_after(list: &mut Array) -> Self {
        let trailing = list.trailing().as_str().unwrap_or("").to_owned();
        list.set_trailing("");
        let has_comma = list.trailing_comma();
        let last = list.iter_mut().last().filter(|_| !has_comma);
        let Some(last) = last else {
            return Self::of(&trailing);
        };
        let suffix = last.decor().suffix().and_then(RawString::as_str);
        let after = format!("{}{trailing}", suffix.unwrap_or(""));
        last.decor_mut().set_suffix("");
        Self::of(&after)
    }

    /// Whether the entry after begins a line.
    fn breaks(&self) -> bool {
        self.lead.contains('\n')
    }

    /// The comments on lines of their own, and the line break and indent (or the space) after them.
    fn parted(&self) -> (&str, &str) {
        let at = self.lead.rfind('\n').unwrap_or(0);
        let (above, indent) = self.lead.split_at(at);
        if above.contains('#') {
            (above, indent)
        } else {
            ("", &self.lead)
        }
    }
}

/// Puts an entry before the one of a number; after the last where the number is the next.
pub(super) fn insert(list: &mut Array, number: usize, mut value: Value) -> Edited {
    let count = list.len();
    if number > count {
        return Err(TOO_FAR);
    }
    if number < count {
        // Comments above the other entry stay with it.
        let mut next = Between::before(list, number);
        let (_, indent) = next.parted();
        *value.decor_mut() = Decor::new(format!("{}{indent}", next.tail), "");
        list.insert_formatted(number, value);
        if next.lead.is_empty() {
            next.lead.push(' ');
        }
        set_prefix(list, number + 1, next.lead);
        return Ok(());
    }
    let after = Between::take_after(list);
    let last = count.checked_sub(1).map(|last| Between::before(list, last));
    let (before, after) = match last {
        Some(last) => {
            let indent = match last.parted() {
                (_, indent) if last.breaks() => indent,
                _ if after.tail.is_empty() => " ",
                _ => "\n",
            };
            (format!("{}{indent}", after.tail), after.lead)
        }
        None if after.parted().0.is_empty() && after.tail.is_empty() => Default::default(),
        // Comments in a list without entries come before its first one.
        None => (after.tail + &after.lead, "\n".to_owned()),
    };
    *value.decor_mut() = Decor::new(before, "");
    list.push_formatted(value);
    list.set_trailing(after);
    Ok(())
}

/// Takes an entry out. The comment at the end of its line goes with it where it stands there alone.
pub(super) fn remove(list: &mut Array, number: usize) -> Edited {
    if number >= list.len() {
        return Err(NOT_THERE);
    }
    let is_last = number + 1 == list.len();
    let own = Between::before(list, number);
    let next = if is_last {
        Between::take_after(list)
    } else {
        Between::before(list, number + 1)
    };
    let is_first_of_line = own.breaks() || number == 0;
    let tail = match is_first_of_line {
        true => own.tail.as_str(),
        false => next.tail.as_str(),
    };
    let (above, _) = own.parted();
    list.remove(number);
    if is_last {
        let mut after = format!("{tail}{above}{}", next.lead);
        // Nothing can stand on the line of a comment after it.
        if after.contains('#') && !next.breaks() {
            after.push('\n');
        }
        let has_comma = list.trailing_comma() && !list.is_empty();
        list.set_trailing_comma(has_comma);
        list.set_trailing(after);
    } else {
        let lead = if next.breaks() {
            format!("{above}{}", next.lead)
        } else if is_first_of_line {
            own.lead.clone()
        } else {
            next.lead
        };
        set_prefix(list, number, format!("{tail}{lead}"));
    }
    Ok(())
}

/// Entries up to which a list is filled with zeros: any of a point's may be given first.
const POINT: usize = 3;
const TOO_FAR: &str = "the list there ends before it, and grows by one entry at a time";

/// The entry of a number; a list that ends just before it grows by a zero.
pub(super) fn grown(list: &mut Array, number: usize) -> Result<&mut Value, &'static str> {
    if number >= POINT && number > list.len() {
        return Err(TOO_FAR);
    }
    while list.len() <= number {
        insert(list, list.len(), 0.into())?;
    }
    list.get_mut(number).ok_or(NOT_THERE)
}

fn set_prefix(list: &mut Array, number: usize, prefix: String) {
    if let Some(value) = list.get_mut(number) {
        value.decor_mut().set_prefix(prefix);
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;
    use toml_edit::DocumentMut;

    fn changed(text: &str, change: impl FnOnce(&mut Array) -> Edited) -> String {
        let mut document: DocumentMut = format!("a = {text}\nb = 1\n").parse().unwrap();
        change(document["a"].as_array_mut().unwrap()).unwrap();
        let after = document.to_string();
        assert!(after.parse::<DocumentMut>().is_ok(), "{after}");
        let list = after.strip_prefix("a = ").unwrap();
        list.strip_suffix("\nb = 1\n").unwrap().to_owned()
    }

    fn without(text: &str, number: usize) -> String {
        changed(text, |list| remove(list, number - 1))
    }

    fn with(text: &str, number: usize) -> String {
        changed(text, |list| insert(list, number - 1, 9.into()))
    }

    const COMMENTED: &str =
        "[ # corners\n  1, # one\n  # the far side\n  2, # two\n  3, # three\n  # end\n]";

    #[test]
    fn each_entry_takes_only_its_own_comment_along() {
        assert_eq!(
            without(COMMENTED, 1),
            "[ # corners\n  # the far side\n  2, # two\n  3, # three\n  # end\n]"
        );
        assert_eq!(
            without(COMMENTED, 2),
            "[ # corners\n  1, # one\n  # the far side\n  3, # three\n  # end\n]"
        );
        assert_eq!(
            without(COMMENTED, 3),
            "[ # corners\n  1, # one\n  # the far side\n  2, # two\n  # end\n]"
        );
        let no_comma = "[\n  1, # one\n  2, # two\n  3 # three\n]";
        assert_eq!(without(no_comma, 3), "[\n  1, # one\n  2 # two\n]");
        assert_eq!(without(no_comma, 2), "[\n  1, # one\n  3 # three\n]");
        assert_eq!(without("[1, # one\n 2]", 2), "[1 # one\n]");
        assert_eq!(without("[\n  1, # one\n]", 1), "[\n]");
    }

    #[test]
    fn a_comment_of_a_line_with_others_stays() {
        let rows = "[\n  1, 2, # front\n  3, 4, # back\n]";
        assert_eq!(without(rows, 1), "[\n  2, # front\n  3, 4, # back\n]");
        assert_eq!(without(rows, 2), "[\n  1, # front\n  3, 4, # back\n]");
        assert_eq!(without(rows, 4), "[\n  1, 2, # front\n  3, # back\n]");
    }

    #[test]
    fn an_entry_is_put_before_another_or_at_the_end() {
        assert_eq!(
            with(COMMENTED, 1),
            "[ # corners\n  9,\n  1, # one\n  # the far side\n  2, # two\n  3, # three\n  # end\n]"
        );
        assert_eq!(
            with(COMMENTED, 2),
            "[ # corners\n  1, # one\n  9,\n  # the far side\n  2, # two\n  3, # three\n  # end\n]"
        );
        assert_eq!(
            with(COMMENTED, 4),
            "[ # corners\n  1, # one\n  # the far side\n  2, # two\n  3, # three\n  9,\n  # end\n]"
        );
        assert_eq!(
            with("[\n  1, # one\n  2 # two\n]", 3),
            "[\n  1, # one\n  2, # two\n  9\n]"
        );
        assert_eq!(with("[1 # one\n]", 2), "[1, # one\n9\n]");
        assert_eq!(with("[\n  # none yet\n]", 1), "[\n  # none yet\n9\n]");
    }

    #[test]
    fn lists_on_one_line_stay_on_it() {
        assert_eq!(without("[1, 2, 3]", 1), "[2, 3]");
        assert_eq!(without("[1, 2, 3]", 2), "[1, 3]");
        assert_eq!(without("[ 1, 2 ]", 2), "[ 1 ]");
        assert_eq!(without("[1]", 1), "[]");
        assert_eq!(with("[]", 1), "[9]");
        assert_eq!(with("[1, 2]", 1), "[9, 1, 2]");
        assert_eq!(with("[1, 2]", 2), "[1, 9, 2]");
        assert_eq!(with("[ 1, 2 ]", 3), "[ 1, 2, 9 ]");
    }

    #[test]
    fn a_list_grows_by_one() {
        let set = |text: &str, number: usize| {
            changed(text, |list| {
                *grown(list, number - 1)? = 9.into();
                Ok(())
            })
        };
        assert_eq!(set("[1, 2, 3]", 4), "[1, 2, 3, 9]");
        assert_eq!(set("[]", 3), "[0, 0, 9]", "the height of a point");
        let mut list: Array = [1, 2].into_iter().collect();
        assert_eq!(insert(&mut list, 3, 9.into()), Err(TOO_FAR));
        assert_eq!(grown(&mut list, 3).map(drop), Err(TOO_FAR));
        assert_eq!(grown(&mut list, 9_999).map(drop), Err(TOO_FAR));
        assert_eq!(list.len(), 2);
    }
}

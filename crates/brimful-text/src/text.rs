//! Text that is ready to be shown, and the templates that it is made from.

use std::fmt;

/// A language that Brimful speaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Language {
    /// The language that all templates are written in.
    #[default]
    English,
    /// The pseudo-locale `en-XA`: English with every word of a template marked, so that a test sees
    /// which words of a page came from somewhere else.
    Pseudo,
}

impl Language {
    /// The language of a BCP 47 tag.
    pub fn of_tag(tag: &str) -> Option<Self> {
        match tag {
            "en" => Some(Self::English),
            "en-XA" => Some(Self::Pseudo),
            _ => None,
        }
    }
}

/// What needs no units of a job is said in a language alone, as a fault of a job file.
impl Language {
    /// A template of this crate with its places filled in; called by [`say!`](crate::say).
    pub fn compose(self, template: &str, places: &[(&str, &Text)]) -> Text {
        compose(self, template, places)
    }

    /// A sentence of a data file, which is a template without places.
    pub fn data(self, sentence: &str) -> Text {
        compose(self, sentence, &[])
    }

    /// What a person wrote: a name, a note. It is in no language of ours.
    pub fn given(self, text: &str) -> Text {
        Text::verbatim(text)
    }
}

/// What stands before every word of a template in the pseudo-locale.
pub const MARK: char = '\u{b7}';

/// Words that are ready to be shown. Only this crate makes them.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Text(String);

impl Text {
    /// Text that is in no language: a name that a person gave, a figure with the symbol of its unit.
    pub(crate) fn verbatim(text: impl Into<String>) -> Self {
        Self(text.into())
    }

    /// The text.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Whether there is nothing to show.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Texts one after another with something between them that is in no language.
    pub fn join(texts: impl IntoIterator<Item = Self>, between: &str) -> Self {
        let texts: Vec<String> = texts.into_iter().map(|text| text.0).collect();
        Self(texts.join(between))
    }

    /// The same without its full stop, to stand in another sentence.
    #[must_use]
    pub(crate) fn without_stop(self) -> Self {
        Self(self.0.trim_end_matches('.').to_owned())
    }

    /// The same in capital letters.
    #[must_use]
    pub fn in_capitals(self) -> Self {
        Self(self.0.to_uppercase())
    }

    /// The same with a capital letter in front.
    #[must_use]
    pub fn capitalised(self) -> Self {
        let first = self.0.char_indices().find(|(_, c)| c.is_alphabetic());
        match first {
            Some((at, letter)) if self.0[..at].chars().all(|c| c == MARK) => {
                let rest = &self.0[at + letter.len_utf8()..];
                Self(format!("{}{}{rest}", &self.0[..at], letter.to_uppercase()))
            }
            _ => self,
        }
    }
}

impl AsRef<str> for Text {
    fn as_ref(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Text {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.0)
    }
}

impl From<Text> for String {
    fn from(text: Text) -> Self {
        text.0
    }
}

impl From<&Text> for Text {
    fn from(text: &Text) -> Self {
        text.clone()
    }
}

impl From<usize> for Text {
    fn from(count: usize) -> Self {
        Self(count.to_string())
    }
}

/// A sentence from an English template with named places: `say!(words, "{n} panels", n = 4_usize)`.
///
/// A place is filled with [`Text`] or a count, never with a plain string, so that no words come in
/// unseen. That every place is filled and nothing is left over is checked by the compiler.
#[macro_export]
macro_rules! say {
    ($words:expr, $template:literal $(, $name:ident = $value:expr)* $(,)?) => {{
        let ($($name,)*) = ($($crate::Text::from($value),)*);
        if false {
            let _ = format_args!($template $(, $name = $name)*);
        }
        $words.compose($template, &[$((stringify!($name), &$name)),*])
    }};
}

pub(crate) fn compose(language: Language, template: &str, places: &[(&str, &Text)]) -> Text {
    let mut text = String::with_capacity(template.len());
    let mut rest = template;
    while let Some(open) = rest.find('{') {
        text.push_str(&translated(language, &rest[..open]));
        let close = rest[open..].find('}').map_or(rest.len(), |at| open + at);
        let name = rest.get(open + 1..close).unwrap_or_default();
        let filled = places.iter().find(|(place, _)| *place == name);
        text.push_str(filled.map_or("", |(_, text)| text.as_str()));
        rest = rest.get(close + 1..).unwrap_or_default();
    }
    text.push_str(&translated(language, rest));
    Text(text)
}

fn translated(language: Language, words: &str) -> String {
    match language {
        Language::English => words.to_owned(),
        Language::Pseudo => marked(words),
    }
}

/// The same with a mark before every run of letters.
fn marked(words: &str) -> String {
    let mut text = String::with_capacity(words.len() * 2);
    let mut inside = false;
    for letter in words.chars() {
        if letter.is_alphabetic() && !inside {
            text.push(MARK);
        }
        inside = letter.is_alphabetic();
        text.push(letter);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_filled_by_name() {
        let name = Text::verbatim("tap");
        let places = [("name", &name), ("n", &Text::from(2_usize))];
        let english = compose(Language::English, "{n} of the {name}.", &places);
        assert_eq!(english.as_str(), "2 of the tap.");
        let pseudo = compose(Language::Pseudo, "{n} of the {name}.", &places);
        assert_eq!(pseudo.as_str(), "2 ·of ·the tap.");
    }

    #[test]
    fn a_sentence_begins_with_a_capital() {
        let capital = |text: &str| Text::verbatim(text).capitalised();
        assert_eq!(capital("sheet of 8 mm").as_str(), "Sheet of 8 mm");
        assert_eq!(capital("·sheet").as_str(), "·Sheet");
        assert_eq!(capital("8 mm").as_str(), "8 mm");
    }
}

//! Paths of keys without the numbers of tables and items.

/// `inner[2].at[1]` as `inner.at[]`.
pub(crate) fn without_numbers(path: &str) -> String {
    let (section, key) = match path.rsplit_once('.') {
        Some((section, key)) => (Some(without_items(section)), key),
        None => (None, path),
    };
    let mut parts = key.split('[');
    let mut plain = section.map_or_else(String::new, |section| format!("{section}."));
    plain.push_str(parts.next().unwrap_or_default());
    parts.for_each(|_| plain.push_str("[]"));
    plain
}

/// `inner[2].at[1]` as `inner.at`.
pub(crate) fn without_items(path: &str) -> String {
    let parts = path
        .split('.')
        .map(|part| part.split('[').next().unwrap_or(part));
    parts.collect::<Vec<&str>>().join(".")
}

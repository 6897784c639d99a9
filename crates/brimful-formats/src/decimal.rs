//! Numbers as text, the same on every machine.

use crate::error::{FormatError, LARGEST};

/// `value` with at most `decimals` decimals, without trailing zeros but always with the point:
/// `12.5`, `3.`, `0.`; never `-0.`.
///
/// # Errors
/// [`FormatError::Number`] naming `place` when the value is not finite or too large.
pub(crate) fn trimmed(
    value: f64,
    decimals: usize,
    place: impl Fn() -> String,
) -> Result<String, FormatError> {
    let text = fixed(value, decimals, place)?;
    let text = if text.contains('.') { text } else { text + "." };
    Ok(text.trim_end_matches('0').to_owned())
}

/// Whether a number is finite and not too large.
pub(crate) fn can_be_written(value: f64) -> bool {
    (-LARGEST..=LARGEST).contains(&value)
}

/// `value` with exactly `decimals` decimals, never a negative zero.
///
/// # Errors
/// As [`trimmed`].
pub(crate) fn fixed(
    value: f64,
    decimals: usize,
    place: impl Fn() -> String,
) -> Result<String, FormatError> {
    if !can_be_written(value) {
        return Err(FormatError::Number { place: place() });
    }
    let text = format!("{value:.decimals$}");
    let is_zero = text.bytes().all(|byte| matches!(byte, b'-' | b'0' | b'.'));
    Ok(if is_zero {
        text.trim_start_matches('-').to_owned()
    } else {
        text
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_as_numbers() {
        let text = |value| trimmed(value, 6, || "test".into()).unwrap();
        assert_eq!(text(0.0), "0.");
        assert_eq!(text(-1e-9), "0.");
        assert_eq!(text(-374.5), "-374.5");
        assert_eq!(text(100.0), "100.");
        assert_eq!(trimmed(100.0, 0, || "test".into()).unwrap(), "100.");
        assert_eq!(fixed(2.0, 1, || "test".into()).unwrap(), "2.0");
        for bad in [f64::NAN, f64::INFINITY, 1e13] {
            assert_eq!(
                trimmed(bad, 3, || "here".into()),
                Err(FormatError::Number {
                    place: "here".into()
                })
            );
        }
    }
}

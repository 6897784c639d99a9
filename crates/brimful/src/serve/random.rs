//! Random numbers of the system, for codes and passes.

use super::error::ApiError;

/// Any number, each as likely as any other.
pub(super) fn number() -> Result<u64, ApiError> {
    bytes().map(u64::from_le_bytes)
}

/// A token of 32 hexadecimal digits.
pub(super) fn token() -> Result<String, ApiError> {
    bytes().map(|bytes| format!("{:032x}", u128::from_le_bytes(bytes)))
}

fn bytes<const N: usize>() -> Result<[u8; N], ApiError> {
    let mut bytes = [0; N];
    getrandom::fill(&mut bytes).map_err(|fault| {
        ApiError::internal(
            format!("The system has no random numbers: {fault}."),
            "Start the server again.",
        )
    })?;
    Ok(bytes)
}

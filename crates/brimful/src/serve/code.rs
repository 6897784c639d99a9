//! The one-time code that lets a device in, with its rate limit: an address that sends wrong codes waits
//! longer each time, other addresses do not, and after too many wrong codes in all the code is replaced.

use super::error::ApiError;
use super::random;
use axum::http::StatusCode;
use std::collections::BTreeMap;
use std::net::IpAddr;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

/// Wrong codes from all addresses before the code is replaced: one of a million is guessed within them
/// with a chance of 1 in 50,000.
const MAX_WRONG: u32 = 20;
/// Wrong codes from one address before it has to wait: typing errors.
const FREE_TRIES: u32 = 3;
/// The wait after the first one more; each further one doubles it.
const FIRST_WAIT: Duration = Duration::from_secs(2);
const MAX_WAIT: Duration = Duration::from_secs(3600);

/// The code that waits for a device.
#[derive(Debug)]
pub(super) struct Code(Mutex<Waiting>);

#[derive(Debug)]
struct Waiting {
    code: String,
    /// Wrong ones since it was made.
    wrong: u32,
    /// Wrong ones of each address that has not come in yet.
    tries: BTreeMap<IpAddr, Tries>,
}

#[derive(Clone, Copy, Debug)]
struct Tries {
    wrong: u32,
    not_before: Instant,
}

impl Code {
    pub(super) fn new() -> Result<Self, ApiError> {
        Ok(Self(Mutex::new(Waiting {
            code: six_digits()?,
            wrong: 0,
            tries: BTreeMap::new(),
        })))
    }

    /// As it is shown now.
    pub(super) fn shown(&self) -> String {
        self.lock().code.clone()
    }

    /// Uses the code up if it is the one given. What comes from an address that has to wait is not
    /// looked at.
    pub(super) fn take(&self, given: &str, from: IpAddr, now: Instant) -> Result<(), ApiError> {
        let mut waiting = self.lock();
        let tries = waiting.tries.get(&from);
        let wait = tries.map(|tries| tries.not_before.saturating_duration_since(now));
        if let Some(wait) = wait.filter(|wait| !wait.is_zero()) {
            return Err(ApiError::new(
                StatusCode::TOO_MANY_REQUESTS,
                format!(
                    "Too many wrong codes came from this device; try again in {} s.",
                    wait.as_secs() + 1
                ),
                "Wait that long, then type the code that the page of the server's own machine shows.",
            ));
        }
        if waiting.code == given.trim() {
            waiting.tries.remove(&from);
            return waiting.renew();
        }
        let wrong = 1 + tries.map_or(0, |tries| tries.wrong);
        let not_before = now + wait_after(wrong);
        waiting.tries.insert(from, Tries { wrong, not_before });
        waiting.wrong += 1;
        if waiting.wrong >= MAX_WRONG {
            waiting.renew()?;
        }
        Err(ApiError::forbidden(
            "That is not the code.",
            "Type the code that the page of the server's own machine shows.",
        ))
    }

    fn lock(&self) -> MutexGuard<'_, Waiting> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Waiting {
    fn renew(&mut self) -> Result<(), ApiError> {
        self.code = six_digits()?;
        self.wrong = 0;
        Ok(())
    }
}

/// How long an address waits after so many wrong codes.
fn wait_after(wrong: u32) -> Duration {
    match wrong.checked_sub(FREE_TRIES + 1) {
        None => Duration::ZERO,
        // Beyond this many doublings it is the longest anyway.
        Some(doublings) => (FIRST_WAIT * (1 << doublings.min(16))).min(MAX_WAIT),
    }
}

fn six_digits() -> Result<String, ApiError> {
    Ok(format!("{:06}", random::number()? % 1_000_000))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;
    use axum::response::IntoResponse;

    fn address(last: u8) -> IpAddr {
        IpAddr::from([192, 168, 1, last])
    }

    fn status(code: &Code, given: &str, from: IpAddr, now: Instant) -> u16 {
        match code.take(given, from, now) {
            Ok(()) => 200,
            Err(refusal) => refusal.into_response().status().as_u16(),
        }
    }

    #[test]
    fn a_code_lets_one_device_in() {
        let (code, now) = (Code::new().unwrap(), Instant::now());
        let shown = code.shown();
        assert_eq!(status(&code, &format!(" {shown} "), address(1), now), 200);
        assert_ne!(code.shown(), shown);
        assert_eq!(status(&code, &shown, address(2), now), 403);
    }

    /// Even the right code, so that nothing is learnt by going on.
    #[test]
    fn who_guesses_waits_longer_each_time() {
        let (code, mut now) = (Code::new().unwrap(), Instant::now());
        for _ in 0..=FREE_TRIES {
            assert_eq!(status(&code, "x", address(1), now), 403);
        }
        assert_eq!(status(&code, &code.shown(), address(1), now), 429);
        now += FIRST_WAIT;
        assert_eq!(status(&code, "x", address(1), now), 403);
        now += FIRST_WAIT;
        assert_eq!(status(&code, &code.shown(), address(1), now), 429);
        now += FIRST_WAIT;
        assert_eq!(status(&code, &code.shown(), address(1), now), 200);
        assert_eq!(wait_after(u32::MAX), MAX_WAIT);
    }

    #[test]
    fn who_guesses_locks_nobody_else_out() {
        let (code, now) = (Code::new().unwrap(), Instant::now());
        let first = code.shown();
        for guess in (0..=250).cycle().take(1_000) {
            status(&code, "x", address(guess), now);
        }
        assert_ne!(code.shown(), first, "no code outlives many guesses");
        assert_eq!(status(&code, &code.shown(), address(251), now), 200);
    }
}

//! Who may come in: by loopback anybody at this machine; on the workshop's network who has typed the
//! one-time code. Host and Origin are looked at in either case, so that no page from elsewhere can
//! have a browser speak for it.

use super::Shop;
use super::refusal::Refusal;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use std::net::{IpAddr, SocketAddr};
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

/// Where the pass of somebody who typed the code is kept.
const COOKIE: &str = "brimful_pass";
/// Wrong codes until no more are taken: one of a million is guessed with a chance of 1 in 50,000.
const MOST_WRONG: u32 = 20;
/// Bytes of the largest body: a job's text as JSON.
pub(super) const LARGEST_BODY: usize = 2_200_000;
/// A request that has not been answered by then is given up: a slow sender keeps no place.
const PATIENCE: Duration = Duration::from_secs(20);

/// The rules at the door.
#[derive(Debug)]
pub(crate) struct Door {
    /// What the Host of a request may be.
    hosts: Vec<String>,
    share: Option<Share>,
}

/// What lets others of the workshop in.
#[derive(Debug)]
struct Share {
    /// Good for one device.
    code: Mutex<Option<String>>,
    passes: Mutex<Vec<String>>,
    wrong: AtomicU32,
}

impl Door {
    /// The door of a server at this address. With `share` a code is made for others.
    pub(crate) fn new(address: SocketAddr, share: bool) -> Result<Self, Refusal> {
        let port = address.port();
        let mut hosts = vec![
            format!("localhost:{port}"),
            format!("127.0.0.1:{port}"),
            format!("[::1]:{port}"),
        ];
        if !address.ip().is_loopback() {
            hosts.push(address.to_string());
        }
        let share = if share {
            Some(Share {
                code: Mutex::new(Some(code()?)),
                passes: Mutex::new(Vec::new()),
                wrong: AtomicU32::new(0),
            })
        } else {
            None
        };
        Ok(Self { hosts, share })
    }

    /// The code that waits for a device; none where nobody else is let in.
    pub(crate) fn code(&self) -> Option<String> {
        let share = self.share.as_ref()?;
        share
            .code
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }

    /// Whether others of the workshop are let in.
    pub(crate) fn is_shared(&self) -> bool {
        self.share.is_some()
    }

    /// A pass for whoever gives the code. The code is used up by it, and a new one made.
    pub(crate) fn enter(&self, given: &str) -> Result<String, Refusal> {
        let refuse = |says: &str| {
            Err(Refusal::forbidden(
                says,
                "Type the code that the server shows, or start it anew for a new one.",
            ))
        };
        let Some(share) = &self.share else {
            return refuse("This server lets nobody in by a code.");
        };
        if share.wrong.load(Ordering::SeqCst) >= MOST_WRONG {
            return refuse("Too many wrong codes were typed; none is taken any more.");
        }
        let mut waiting = share.code.lock().unwrap_or_else(PoisonError::into_inner);
        if waiting.as_deref() != Some(given.trim()) {
            share.wrong.fetch_add(1, Ordering::SeqCst);
            return refuse("That is not the code.");
        }
        let pass = random_hex(16)?;
        *waiting = Some(code()?);
        let mut passes = share.passes.lock().unwrap_or_else(PoisonError::into_inner);
        passes.push(pass.clone());
        Ok(format!(
            "{COOKIE}={pass}; HttpOnly; SameSite=Strict; Path=/; Max-Age=604800"
        ))
    }

    /// Whether a request brings the pass of somebody who typed the code.
    pub(crate) fn has_pass(&self, headers: &HeaderMap) -> bool {
        let Some(share) = &self.share else {
            return false;
        };
        let passes = share.passes.lock().unwrap_or_else(PoisonError::into_inner);
        let cookies = headers.get_all(header::COOKIE).into_iter();
        let mut given = cookies
            .filter_map(|cookies| cookies.to_str().ok())
            .flat_map(|cookies| cookies.split(';'))
            .filter_map(|cookie| cookie.trim().strip_prefix(COOKIE)?.strip_prefix('='));
        given.any(|given| passes.iter().any(|pass| pass == given))
    }

    /// Why a request from `from` stays outside, if it does.
    fn refuses(&self, from: IpAddr, request: &Request) -> Option<Refusal> {
        let headers = request.headers();
        let one = |name| {
            let mut all = headers.get_all(name).iter();
            let first = all.next()?.to_str().ok()?;
            all.next().is_none().then(|| first.to_ascii_lowercase())
        };
        let host = one(header::HOST);
        if !host.as_ref().is_some_and(|host| self.hosts.contains(host)) {
            return Some(Refusal::new(
                StatusCode::MISDIRECTED_REQUEST,
                "This server is not called that.",
                "Open the address that it shows.",
            ));
        }
        if headers.contains_key(header::ORIGIN) {
            let own = host.map(|host| format!("http://{host}"));
            if one(header::ORIGIN) != own {
                return Some(Refusal::forbidden(
                    "A page from elsewhere asked for that.",
                    "Open the page from this server.",
                ));
            }
        }
        let said = one(header::CONTENT_LENGTH).and_then(|length| length.parse::<u64>().ok());
        if said.is_some_and(|length| length > LARGEST_BODY as u64) {
            return Some(Refusal::too_large("a request", LARGEST_BODY));
        }
        let let_in = from.is_loopback() || self.has_pass(headers);
        let at_the_door = matches!(
            (request.method(), request.uri().path()),
            (&Method::POST, "/api/enter") | (&Method::GET, "/api/about")
        ) || !request.uri().path().starts_with("/api/");
        (!let_in && !at_the_door).then(|| {
            Refusal::new(
                StatusCode::UNAUTHORIZED,
                "This server lets in who has typed its code.",
                "Type the code that it shows.",
            )
        })
    }
}

/// Looks at every request before anything else does.
pub(super) async fn look(State(shop): State<Arc<Shop>>, request: Request, next: Next) -> Response {
    let from = request
        .extensions()
        .get::<axum::extract::ConnectInfo<SocketAddr>>()
        .map(|info| info.0.ip());
    let refused = match from {
        Some(from) => shop.door.refuses(from, &request),
        None => Some(Refusal::forbidden(
            "It is not known who asks.",
            "Open the page from this server.",
        )),
    };
    let mut response = match refused {
        Some(refusal) => refusal.into_response(),
        None => match tokio::time::timeout(PATIENCE, next.run(request)).await {
            Ok(response) => response,
            Err(_) => Refusal::new(
                StatusCode::REQUEST_TIMEOUT,
                "That took longer than anybody waits.",
                "Send it again, in one go.",
            )
            .into_response(),
        },
    };
    let headers = response.headers_mut();
    for (name, value) in GUARDS {
        if let Ok(value) = value.parse() {
            headers.entry(*name).or_insert(value);
        }
    }
    response
}

/// What tells a browser to load nothing from elsewhere and to guess nothing.
const GUARDS: &[(&str, &str)] = &[
    (
        "content-security-policy",
        "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    ),
    ("x-content-type-options", "nosniff"),
    ("referrer-policy", "no-referrer"),
    ("cross-origin-opener-policy", "same-origin"),
    ("cross-origin-resource-policy", "same-origin"),
    ("cache-control", "no-store"),
];

/// Six digits.
fn code() -> Result<String, Refusal> {
    Ok(format!("{:06}", random_number()? % 1_000_000))
}

/// Any number, each as likely as any other.
pub(super) fn random_number() -> Result<u64, Refusal> {
    let mut bytes = [0_u8; 8];
    fill(&mut bytes)?;
    Ok(u64::from_le_bytes(bytes))
}

fn random_hex(length: usize) -> Result<String, Refusal> {
    let mut bytes = vec![0_u8; length];
    fill(&mut bytes)?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

fn fill(bytes: &mut [u8]) -> Result<(), Refusal> {
    getrandom::fill(bytes).map_err(|fault| {
        Refusal::own(
            format!("The system has no random numbers: {fault}."),
            "Start the server anew.",
        )
    })
}

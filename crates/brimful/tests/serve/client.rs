//! A server of its own a test, and a plain client that says exactly what goes over the wire.

use serde_json::Value;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, ChildStdout, Command, Stdio};
use std::time::Duration;

/// A server over a folder; killed when dropped.
pub struct Server {
    child: Child,
    out: BufReader<ChildStdout>,
    pub port: u16,
}

/// What came back.
#[derive(Debug)]
pub struct Reply {
    pub status: u16,
    pub headers: String,
    pub body: String,
}

impl Reply {
    pub fn json(&self) -> Value {
        serde_json::from_str(&self.body).unwrap_or_else(|fault| panic!("{fault}: {self:?}"))
    }
}

impl Server {
    pub fn start(folder: &Path) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_brimful"))
            .args(["serve", "--port", "0"])
            .arg(folder)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut line = String::new();
        let mut out = BufReader::new(child.stdout.take().unwrap());
        out.read_line(&mut line).unwrap();
        let port = line.split("localhost:").nth(1).unwrap();
        let port = port.split('/').next().unwrap().parse().unwrap();
        Self { child, out, port }
    }

    /// Ends it as a power cut would.
    pub fn kill(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }

    /// What it said on the terminal after its first line, to its end.
    pub fn said(&mut self) -> String {
        let mut said = String::new();
        self.out.read_to_string(&mut said).unwrap();
        said
    }

    /// Resident memory, bytes.
    pub fn memory(&self) -> usize {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.child.id())).unwrap();
        let line = status
            .lines()
            .find(|line| line.starts_with("VmRSS"))
            .unwrap();
        let kilobytes: usize = line.split_whitespace().nth(1).unwrap().parse().unwrap();
        kilobytes * 1024
    }

    pub fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(("127.0.0.1", self.port)).unwrap();
        stream
            .set_read_timeout(Some(Duration::from_secs(60)))
            .unwrap();
        stream
    }

    /// Sends bytes as they are and reads to the end of the connection.
    pub fn raw(&self, bytes: &[u8]) -> Option<Reply> {
        let mut stream = self.connect();
        // A server that has refused already need not read to the end.
        let _ = stream.write_all(bytes);
        let mut answer = Vec::new();
        let _ = stream.read_to_end(&mut answer);
        let text = String::from_utf8_lossy(&answer);
        let (headers, body) = text.split_once("\r\n\r\n")?;
        let status = headers.split(' ').nth(1)?.parse().ok()?;
        Some(Reply {
            status,
            headers: headers.to_owned(),
            body: body.to_owned(),
        })
    }

    /// One request with a body of JSON, or none.
    pub fn ask(&self, method: &str, path: &str, extra: &str, body: Option<&Value>) -> Reply {
        let body = body.map(Value::to_string).unwrap_or_default();
        let kind = if body.is_empty() {
            ""
        } else {
            "Content-Type: application/json\r\n"
        };
        let head = format!(
            "{method} {path} HTTP/1.1\r\nHost: localhost:{}\r\nConnection: close\r\n{kind}{extra}Content-Length: {}\r\n\r\n",
            self.port,
            body.len()
        );
        let reply = self.raw(format!("{head}{body}").as_bytes()).unwrap();
        // Long answers come in pieces, each with its length before it.
        let chunked = reply
            .headers
            .to_ascii_lowercase()
            .contains("transfer-encoding: chunked");
        let body = if chunked {
            joined(&reply.body)
        } else {
            reply.body.clone()
        };
        Reply { body, ..reply }
    }

    pub fn get(&self, path: &str) -> Reply {
        self.ask("GET", path, "", None)
    }

    /// A change to the text that `etag` tells.
    pub fn change(&self, method: &str, path: &str, etag: &str, body: Option<&Value>) -> Reply {
        self.ask(method, path, &format!("If-Match: \"{etag}\"\r\n"), body)
    }

    /// The etag of a job now.
    pub fn etag(&self, job: &str) -> String {
        let answer = self.get(&format!("/api/jobs/{job}")).json();
        answer["etag"].as_str().unwrap().to_owned()
    }
}

fn joined(chunks: &str) -> String {
    let (mut rest, mut whole) = (chunks, String::new());
    while let Some((length, after)) = rest.split_once("\r\n") {
        let length = usize::from_str_radix(length.trim(), 16).unwrap_or(0);
        if length == 0 {
            break;
        }
        whole.push_str(&after[..length]);
        rest = &after[length + 2..];
    }
    whole
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

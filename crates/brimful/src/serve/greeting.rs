//! What is said on the terminal when the server starts: where it is, and the code for others.

use qrcode::QrCode;
use qrcode::render::unicode::Dense1x2;
use std::net::{IpAddr, Ipv4Addr, SocketAddr, UdpSocket};

/// The address of this machine on its network; loopback where it is on none.
pub(super) fn own_address() -> IpAddr {
    // Nothing is sent: connecting a datagram socket only asks the system which way it would go. The
    // address is one kept for documentation (RFC 5737).
    let asked = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).and_then(|socket| {
        socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9))?;
        socket.local_addr()
    });
    asked.map_or(IpAddr::V4(Ipv4Addr::LOCALHOST), |address| address.ip())
}

/// What the terminal shows.
pub(super) fn greeting(
    address: SocketAddr,
    code: Option<&str>,
    is_built: bool,
    left_out: &[String],
) -> String {
    let mut text = format!(
        "Brimful is at http://localhost:{}/ on this machine. Ctrl-C ends it.\n",
        address.port()
    );
    if let Some(code) = code {
        // Without a route out of the network the system names no address of this machine.
        let is_known = !address.ip().is_loopback();
        let place = if is_known {
            format!("http://{address}/")
        } else {
            format!(
                "the address of this machine in the workshop's network, as http://ADDRESS:{}/,",
                address.port()
            )
        };
        text.push_str(&format!(
            "\nOthers in the workshop open {place} and type the code {code}.\nIt lets one device in; the next code is shown on the page of this machine.\nOnly share on a network you trust: what is sent is not encrypted.\n"
        ));
        let link = format!("http://{address}/?code={code}");
        let image = QrCode::new(link.as_bytes()).ok().filter(|_| is_known);
        if let Some(image) = image {
            let drawn = image.render::<Dense1x2>().build();
            text.push_str(&format!("\n{drawn}\n"));
        }
    }
    if !is_built {
        text.push_str("\nThis command was built without the page. `make serve` builds it (Node is needed once); the paths under /api work.\n");
    }
    if !left_out.is_empty() {
        text.push_str("\nNot on the page, since the name of a job is up to 64 letters (a to z), digits, spaces, hyphens and underscores, a letter or digit first; rename what should be:\n");
        for file in left_out {
            // A name may hold what would upset the terminal.
            text.push_str(&format!("  {}\n", file.escape_debug()));
        }
    }
    text
}

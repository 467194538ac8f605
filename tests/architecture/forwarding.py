"""A plain HTTP server in front of the service, for scripts that ask over a socket."""

from http.server import BaseHTTPRequestHandler

from starlette.testclient import TestClient


def forwarding(client: TestClient) -> type[BaseHTTPRequestHandler]:
    """A handler that hands each request on to ``client``."""

    class Handler(BaseHTTPRequestHandler):
        def do_POST(self):
            body = self.rfile.read(int(self.headers["Content-Length"]))
            kept = {name: self.headers[name] for name in ("Content-Type", "Accept") if self.headers[name]}
            response = client.post(self.path, content=body, headers=kept)
            self.send_response(response.status_code)
            self.send_header("Content-Type", response.headers["content-type"])
            self.send_header("Content-Length", str(len(response.content)))
            self.end_headers()
            self.wfile.write(response.content)

        def log_message(self, *_):
            pass

    return Handler

"""A receiver of webhooks for interop tests: takes what the code of src/docs/messages.md lets pass.

Arguments: the page with that code, the secret, and the path under which it is called.
Prints the port, then a line for each request: True or False, and the id of the message.
Ends with standard input, so that it cannot outlive the test.
"""
import re
import sys
import threading
from http.server import BaseHTTPRequestHandler, HTTPServer

PAGE, SECRET, PATH = sys.argv[1:]

with open(PAGE, encoding="utf-8") as page:
    exec(re.search(r"```python\n(.*?)```", page.read(), re.DOTALL)[1])


class Desk(BaseHTTPRequestHandler):
    def do_POST(self):
        body = self.rfile.read(int(self.headers["Content-Length"]))
        url = f"http://127.0.0.1:{self.server.server_port}{PATH}"
        taken = is_from_leat(SECRET.encode(), url, self.command, self.headers, body)
        changed = is_from_leat(SECRET.encode(), url, self.command, self.headers, body + b" ")
        print(taken and not changed, self.headers["Leat-Message-Id"], flush=True)
        self.send_response(204 if taken else 401)
        self.end_headers()

    def log_message(self, *ignored):
        pass


server = HTTPServer(("127.0.0.1", 0), Desk)
print(server.server_port, flush=True)
threading.Thread(target=server.serve_forever, daemon=True).start()
sys.stdin.read()

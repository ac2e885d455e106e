# A sensor that sends: MQTT 3.1.1 (OASIS standard) by hand, with nothing but MicroPython's own modules.
import json, socket, time

HOST, PORT = "192.168.1.7", 1883
USER, PASSWORD = "T01", "as shown once on the page"
TOPIC = "alder/T01/centre"

def text(words):
    data = words.encode()
    return bytes([len(data) >> 8, len(data) & 255]) + data

def packet(kind, body):
    length, head = len(body), bytes([kind])
    while True:
        digit, length = length & 127, length >> 7
        head += bytes([digit | (128 if length else 0)])
        if not length:
            return head + body

def connect(link):
    link.connect(socket.getaddrinfo(HOST, PORT)[0][-1])
    body = text("MQTT") + bytes([4, 0xC2, 0, 120]) + text(USER) + text(USER) + text(PASSWORD)
    link.send(packet(0x10, body))
    answer = link.recv(4)
    if len(answer) < 4 or answer[3] != 0:
        raise OSError("not let in")

def publish(link, payload, number):
    link.send(packet(0x32, text(TOPIC) + bytes([number >> 8, number & 255]) + payload.encode()))
    if link.recv(4)[:1] != b"\x40":
        raise OSError("not taken")

def read():
    # On a board: machine.ADC(26).read_u16() for the soil, its driver for the temperature.
    return {"soil": 2100, "temp": 21.4}

number = 0
while True:
    link = socket.socket()
    try:
        connect(link)
        while True:
            number = number % 65535 + 1
            publish(link, json.dumps(read()), number)
            time.sleep(60)
    except OSError as trouble:
        print(trouble)
    link.close()
    time.sleep(10)

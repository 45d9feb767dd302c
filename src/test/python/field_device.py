"""A field device for interop tests: a pymodbus TCP server on a port of its own.

Prints the port, serves unit 1 until standard input ends, so that it cannot outlive the test.
Arguments: none, or a port to listen on again after a restart.
Each line of standard input sets cells: a table (coil, discrete_input, holding_register,
input_register), an address, and words or bits from there on, such as "input_register 0 17056 0".
"""
import asyncio
import logging
import sys
import threading

from pymodbus.constants import Endian
from pymodbus.datastore import (
    ModbusSequentialDataBlock,
    ModbusServerContext,
    ModbusSlaveContext,
)
from pymodbus.payload import BinaryPayloadBuilder
from pymodbus.server.async_io import ModbusTcpServer

logging.disable(logging.ERROR)  # refusals and hang-ups are what the tests are about

# the function code by which pymodbus names a table
TABLES = {
    "coil": 1,
    "discrete_input": 2,
    "holding_register": 3,
    "input_register": 4,
}


def registers(add, byteorder=Endian.Big, wordorder=Endian.Big):
    builder = BinaryPayloadBuilder(byteorder=byteorder, wordorder=wordorder)
    add(builder)
    return builder.to_registers()


def float32(value, byteorder, wordorder):
    return registers(lambda b: b.add_32bit_float(value), byteorder, wordorder)


inputs = (
    float32(123.456, Endian.Big, Endian.Big)  # 0: ABCD
    + float32(123.456, Endian.Big, Endian.Little)  # 2: CDAB
    + float32(123.456, Endian.Little, Endian.Big)  # 4: BADC
    + float32(123.456, Endian.Little, Endian.Little)  # 6: DCBA
)
holdings = (
    registers(lambda b: b.add_16bit_int(-100))  # 0
    + registers(lambda b: b.add_16bit_uint(65436))  # 1
    + registers(lambda b: b.add_32bit_int(-100000))  # 2
    + registers(lambda b: b.add_32bit_uint(4000000000))  # 4
)
device = ModbusSlaveContext(
    co=ModbusSequentialDataBlock(0, [False, True] * 8),
    di=ModbusSequentialDataBlock(0, [True, False] * 8),
    hr=ModbusSequentialDataBlock(0, holdings),
    ir=ModbusSequentialDataBlock(0, inputs),
    zero_mode=True,
)


def set_cells(line):
    table, address, *values = line.split()
    device.setValues(TABLES[table], int(address), [int(value) for value in values])


async def main(port):
    context = ModbusServerContext(slaves={1: device}, single=False)
    server = ModbusTcpServer(
        context, address=("127.0.0.1", port), allow_reuse_address=True
    )
    serving = asyncio.ensure_future(server.serve_forever())
    await server.serving
    print(server.server.sockets[0].getsockname()[1], flush=True)
    loop = asyncio.get_running_loop()
    ended = asyncio.Event()

    def listen():
        # in the loop, so that no request sees half of a change
        for line in sys.stdin:
            loop.call_soon_threadsafe(set_cells, line)
        loop.call_soon_threadsafe(ended.set)

    threading.Thread(target=listen, daemon=True).start()
    await ended.wait()
    serving.cancel()


asyncio.run(main(int(sys.argv[1]) if len(sys.argv) > 1 else 0))

"""A Modbus server for interoperation tests, on pymodbus. Usage: tcp PORT | rtu-over-tcp PORT | rtu DEVICE. Says "ready" when it serves."""
import asyncio
import sys

from pymodbus.datastore import ModbusSequentialDataBlock, ModbusServerContext, ModbusSlaveContext
from pymodbus.server.async_io import ModbusSerialServer, ModbusTcpServer
from pymodbus.transaction import ModbusRtuFramer, ModbusSocketFramer

COUNT = 200


def context():
    device = ModbusSlaveContext(
        co=ModbusSequentialDataBlock(0, [0] * COUNT),
        di=ModbusSequentialDataBlock(0, [1 if i % 3 == 0 else 0 for i in range(COUNT)]),
        hr=ModbusSequentialDataBlock(0, [0] * COUNT),
        ir=ModbusSequentialDataBlock(0, [1000 + i for i in range(COUNT)]),
        zero_mode=True,
    )
    return ModbusServerContext(slaves={5: device}, single=False)


async def main(kind, where):
    if kind != "rtu":
        framer = ModbusSocketFramer if kind == "tcp" else ModbusRtuFramer
        server = ModbusTcpServer(context(), framer=framer, address=("127.0.0.1", int(where)))
        serving = asyncio.create_task(server.serve_forever())
        await server.serving
    else:
        server = ModbusSerialServer(context(), framer=ModbusRtuFramer, port=where, baudrate=115200, parity="N")
        await server.start()
        serving = asyncio.create_task(server.serve_forever())
    print("ready", flush=True)
    await serving


asyncio.run(main(sys.argv[1], sys.argv[2]))

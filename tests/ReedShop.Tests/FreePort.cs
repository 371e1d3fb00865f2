using System.Net;
using System.Net.Sockets;

namespace ReedShop.Tests;

/// <summary>
/// Ports for servers that cannot let the system choose. They lie below those the system gives out (32768 and up on
/// Linux), so that no other server or client is given one between the look and the use; no two tests get the same.
/// </summary>
internal static class FreePort
{
    private const int First = 20_000;
    private const int Count = 10_000;

    private static int last = Random.Shared.Next(Count);

    public static int Next()
    {
        while (true)
        {
            var port = First + Interlocked.Increment(ref last) % Count;
            try
            {
                using var probe = new TcpListener(IPAddress.Loopback, port);
                probe.Start();
                return port;
            }
            catch (SocketException)
            {
                // Something else listens there; the next one may be free.
            }
        }
    }
}

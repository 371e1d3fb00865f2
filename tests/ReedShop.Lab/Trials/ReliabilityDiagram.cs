using System.Globalization;

namespace ReedShop.Lab.Trials;

/// <summary>Kept against recorded as a drawing: points on the diagonal are promises as good as their word.</summary>
internal static class ReliabilityDiagram
{
    private const int Size = 420;
    private const int Margin = 50;
    private const double Least = 0.3;

    /// <param name="points">Chance recorded, share kept, and the interval of the share.</param>
    public static string Svg(
        IEnumerable<(double Recorded, double Kept, double Low, double High)> points,
        string title
    ) =>
        Text(
            $"""
            <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {Size} {Size}" font-family="sans-serif" font-size="12">
              <title>{title}</title>
              <rect width="{Size}" height="{Size}" fill="#f7f8fa"/>
              <line x1="{X(Least)}" y1="{Y(Least)}" x2="{X(1)}" y2="{Y(1)}" stroke="#8a8f9c" stroke-dasharray="4 4"/>
            {string.Join('\n', Enumerable.Range(3, 8).Select(tenth => Tick(tenth / 10.0)))}
            {string.Join('\n', points.Select(Point))}
              <text x="{Size / 2}" y="{Size
                - 8}" text-anchor="middle">chance recorded (bars: 90 % intervals of Wilson)</text>
              <text transform="translate(14 {Size / 2}) rotate(-90)" text-anchor="middle">share kept</text>
              <text x="{Size / 2}" y="20" text-anchor="middle">{title}</text>
            </svg>

            """
        );

    private static string Tick(double at) =>
        Text(
            $"""
              <text x="{X(at)}" y="{Size - Margin + 18}" text-anchor="middle">{at}</text>
              <text x="{Margin - 8}" y="{Y(at) + 4}" text-anchor="end">{at}</text>
            """
        );

    private static string Point((double Recorded, double Kept, double Low, double High) point) =>
        Text(
            $"""
              <line x1="{X(point.Recorded)}" y1="{Y(point.Low)}" x2="{X(point.Recorded)}" y2="{Y(
                point.High
            )}" stroke="#7a2e4d"/>
              <circle cx="{X(point.Recorded)}" cy="{Y(point.Kept)}" r="4" fill="#7a2e4d"/>
            """
        );

    private static double X(double share) => Math.Round(Margin + Along(share), 1);

    private static double Y(double share) => Math.Round(Size - Margin - Along(share), 1);

    private static double Along(double share) =>
        (Size - (2 * Margin)) * (Math.Clamp(share, Least, 1) - Least) / (1 - Least);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/* The start of a program alone, with the C library. */
int main(void)
{
    return 0;
}
